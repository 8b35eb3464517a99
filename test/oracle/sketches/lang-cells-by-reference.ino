// chained calls and compound assignments through references
struct Counter { uint16_t c; Counter() : c(0) {} Counter &add(uint16_t n) { c += n; return *this; } uint16_t get() const { return c; } };
Counter c;
uint16_t &cell(uint8_t i) { static uint16_t cells[3] = { 1, 2, 3 }; return cells[i]; }
void setup() {
  DDRB |= 6; TCCR1A = 0xA2; TCCR1B = 0x19; ICR1 = 1000;
  cell(1) += 40; cell(2) <<= 3; cell(0)--;
  uint16_t &r = cell(1); r++;
  OCR1A = cell(0) + cell(1) + cell(2);
  OCR1B = c.add(100).add(cell(1)).get();
  OCR1B |= cell(2) ? 1 : 0;
  (OCR1A) += 5;
}
void loop() {}
