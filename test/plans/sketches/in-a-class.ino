// wants D9: 2 kHz
// wants D10: 2 kHz
class Pump {
 public:
  void begin() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM10);
    TCCR1B = _BV(WGM12) | _BV(CS11);
  }
  void power(byte p) { OCR1A = p; }
};
Pump pump;
void setup() { pump.begin(); pinMode(10, OUTPUT); OCR1B = 20; }
void loop() { pump.power(120); delay(100); pump.power(80); delay(100); }
