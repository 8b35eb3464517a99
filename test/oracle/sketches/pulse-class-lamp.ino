// A lamp as an object.
class Lamp {
 public:
  Lamp(byte pin, int on, int off) : pin_(pin), on_(on), off_(off) {}
  void begin() { pinMode(pin_, OUTPUT); }
  void flash() {
    digitalWrite(pin_, HIGH);
    delay(on_);
    digitalWrite(pin_, LOW);
    delay(off_);
  }

 private:
  byte pin_;
  int on_, off_;
};

Lamp lamp(7, 3, 9);

void setup() {
  lamp.begin();
}

void loop() {
  lamp.flash();
}
