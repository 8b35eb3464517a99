// Dimmers made by their base's constructor.
class Output {
  protected:
  uint8_t pin;
  public:
  Output(uint8_t p) : pin(p) {}
  void begin() {
    pinMode(pin, OUTPUT);
  }
};
class Dimmer : public Output {
  public:
  using Output::Output;
  void set(uint8_t v) {
    analogWrite(pin, v);
  }
};
class Doubled : public Dimmer {
  uint8_t scale;
  public:
  Doubled(uint8_t p, uint8_t s = 2) : Dimmer(p), scale(s) {}
  void set(uint8_t v) {
    Dimmer::set(v * scale);
  }
};
Dimmer a(10);
Doubled b{11, 3};
void setup() {
  a.begin();
  b.begin();
  a.set(70);
  b.set(30);
}
void loop() {}
