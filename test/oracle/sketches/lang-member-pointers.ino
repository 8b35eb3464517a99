// pointers to methods and to data members: tables, macros, inheritance, virtual methods, references
struct Recipe { uint8_t low, high; uint16_t hold; };
class Vent {
 public:
  typedef void (Vent::*Action)(uint8_t);
  virtual void open(uint8_t by) { level += by; }
  void shut(uint8_t by) { level -= by; }
  void act(Action a, uint8_t by) { (this->*a)(by); }
  uint8_t level = 100;
};
class BigVent : public Vent {
 public:
  void open(uint8_t by) override { level += 2 * by; }
};
#define CALL_ON(object, method) ((object).*(method))
BigVent vent;
Vent::Action plan[] = { &Vent::open, &Vent::shut };
Recipe recipe = { 30, 70, 500 };
uint8_t pick(const Recipe &r, uint8_t Recipe::*which) { return r.*which; }
void setup() {
  DDRD |= 0x60; DDRB |= 8;
  TCCR0A |= 0xA0; TCCR2A = 0x83;
  vent.act(plan[0], 10);
  Vent *p = &vent;
  (p->*plan[1])(5);
  CALL_ON(vent, plan[1])(1);
  OCR0A = vent.level;
  uint8_t Recipe::*m = &Recipe::high;
  recipe.*m += 3;
  OCR0B = pick(recipe, m);
  Recipe *r = &recipe;
  uint16_t Recipe::*h = &Recipe::hold;
  OCR2A = (r->*h / 5) + (m ? 1 : 0);
}
void loop() {}
