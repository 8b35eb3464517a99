// two fans described by a table of structs with pointers to registers, set up by a loop
struct Fan {
  const char *name;
  uint8_t pin;
  volatile uint16_t *compare;
  uint8_t comBit;
  uint16_t speed;
};
Fan fans[] = {
  { "intake", 9, &OCR1A, COM1A1, 120 },
  { "exhaust", 10, &OCR1B, COM1B1, 200 },
};
#define FAN_COUNT (sizeof(fans) / sizeof(fans[0]))
#define TOP_25K 320

void fanSpeed(Fan &f, uint16_t s) {
  if (s > TOP_25K) s = TOP_25K;
  f.speed = s;
  *f.compare = s;
}

void setup() {
  Serial.begin(9600);
  TCCR1A = 0;
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = TOP_25K;
  for (uint8_t i = 0; i < FAN_COUNT; i++) {
    Fan *f = &fans[i];
    pinMode(f->pin, OUTPUT);
    TCCR1A |= _BV(f->comBit);
    fanSpeed(*f, f->speed);
    Serial.println(f->name);
  }
}
void loop() {}
