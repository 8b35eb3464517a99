// settings as bytes in flash, a union over them
union Config {
  struct { uint8_t version; uint16_t top; uint8_t duty[2]; } f;
  uint8_t bytes[5];
};
static const uint8_t stored[] PROGMEM = { 1, 0x90, 0x01, 25, 50 };
Config c;
void setup() {
  for (unsigned i = 0; i < sizeof(c.bytes); ++i) c.bytes[i] = pgm_read_byte(stored + i);
  if (c.f.version != 1) return;
  DDRB |= 6; TCCR1A = 0xA2; TCCR1B = 0x11; ICR1 = c.f.top;
  OCR1A = (uint32_t)c.f.top * c.f.duty[0] / 100;
  OCR1B = (uint32_t)c.f.top * c.f.duty[1] / 100;
}
void loop() {}
