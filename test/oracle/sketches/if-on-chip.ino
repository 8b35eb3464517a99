#if defined(__AVR_ATmega2560__)
  #define OUT_PIN 11
  #define SET_DUTY(v) OCR1A = (v)
#elif defined(__AVR_ATmega328P__)
  #define OUT_PIN 9
  #define SET_DUTY(v) OCR1A = (v)
#else
  #error "unknown chip"
#endif
void setup() {
  pinMode(OUT_PIN, OUTPUT);
#if F_CPU == 16000000L
  TCCR1B = (TCCR1B & ~7) | 2;
#else
  TCCR1B = (TCCR1B & ~7) | 1;
#endif
  TCCR1A |= 1 << COM1A1;
  SET_DUTY(44);
}
void loop() {}
