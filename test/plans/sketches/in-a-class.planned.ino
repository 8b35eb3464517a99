// wants D9: 2 kHz
// wants D10: 2 kHz
class Pump {
 public:
  void begin() {
    pinMode(9, OUTPUT);
    TCCR1B = 0;
    TCCR1A = 0;
    TCNT1 = 0;
    OCR1A = 0;
    OCR1B = 655;
    TCCR1B = _BV(WGM13) | _BV(WGM12);
    ICR1 = 7999;
    TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
    TCCR1B |= _BV(CS10);  // 2 kHz on D9 and D10: fast PWM, prescaler 1, TOP 7999
  }
  void power(byte p) { OCR1A = map(p, 0, 255, 0, 7999); }
};
Pump pump;
void setup() { pump.begin(); pinMode(10, OUTPUT); }
void loop() { pump.power(120); delay(100); pump.power(80); delay(100); }
