// A vent that opens slowly: the value between two points follows the time, which nobody knows beforehand.
struct Ramp { uint16_t from; uint16_t to; uint16_t ms; };
const Ramp ramps[] = {{0, 400, 3000}, {400, 120, 1500}, {120, 0, 800}};
byte at = 0;
uint32_t since = 0;

void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS11);
  ICR1 = 400;
}

void loop() {
  uint32_t t = millis() - since;
  const Ramp &r = ramps[at];
  if (t >= r.ms) {
    at = (at + 1) % 3;
    since = millis();
  } else {
    OCR1B = r.from + ((int32_t)r.to - r.from) * (int32_t)t / r.ms;
  }
}
