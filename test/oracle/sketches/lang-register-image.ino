// an image of the control registers as a union of bit fields, written at once
typedef union {
  struct {
    uint8_t wgm : 2;
    uint8_t : 2;
    uint8_t comb : 2;
    uint8_t coma : 2;
    uint8_t cs : 3;
    uint8_t wgm2 : 1;
    uint8_t : 4;
  };
  uint8_t raw[2];
  uint16_t word;
} Image;
Image img;
void load() {
  TCCR2A = img.raw[0];
  TCCR2B = img.raw[1];
}
void setup() {
  img.word = 0;
  img.wgm = 1;
  img.comb = 2;
  img.cs = 4;
  img.wgm2 = 1;
  DDRD |= 1 << 3;
  OCR2A = 124;
  OCR2B = 31;
  load();
}
void loop() {}
