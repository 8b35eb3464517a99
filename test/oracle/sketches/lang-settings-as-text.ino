// a little parser of "key=value;" pairs in flash
const char text[] PROGMEM = "f=400;d=25;x=9;";
uint16_t f, d;
void parse(PGM_P p) {
  char key = 0;
  uint16_t v = 0;
  for (char c; (c = pgm_read_byte(p)); p++) {
    if (c == '=') { v = 0; }
    else if (c == ';') { if (key == 'f') f = v; else if (key == 'd') d = v; }
    else if (isdigit(c)) v = v * 10 + c - '0';
    else key = c;
  }
}
void setup() {
  parse(text);
  DDRB |= 2; TCCR1A = 0x82; TCCR1B = 0x11; ICR1 = f; OCR1A = f * d / 100;
}
void loop() {}
