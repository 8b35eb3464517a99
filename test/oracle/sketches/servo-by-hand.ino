// A flap servo without a library: overflow of timer 1 in CTC.
class Flap {
  public:
    void attach(uint8_t pin) {
      pinMode(pin, OUTPUT);
      TCCR1A = _BV(COM1A1) | _BV(WGM11);
      TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
      ICR1 = 40000;
      write(90);
    }
    void write(int angle) {
      if (angle < 0) angle = 0;
      if (angle > 180) angle = 180;
      OCR1A = 2 * map(angle, 0, 180, 544, 2400);
    }
};
Flap flap;
void setup() {
  flap.attach(9);
}
void loop() {
  flap.write(45);
  delay(120);
  flap.write(135);
  delay(120);
}
