#define TCCRA(n) TCCR##n##A
#define TCCRB(n) TCCR##n##B
#define OCRX(n, c) OCR##n##c
#define START(n, p) do { TCCRA(n) = _BV(COM1A1) | _BV(WGM10); TCCRB(n) = _BV(WGM12) | (p); } while (0)
void setup() {
  pinMode(9, OUTPUT);
  START(1, 2);
  OCRX(1, A) = 33;
}
void loop() {}
