// Rows of a table by pointers.
uint8_t grid[2][3] = { { 1, 2, 3 }, { 4, 5, 6 } };
uint8_t sum(uint8_t (*g)[3], uint8_t rows) {
  uint8_t s = 0;
  for (uint8_t r = 0; r < rows; r++) for (uint8_t c = 0; c < 3; c++) s += g[r][c];
  return s;
}
void setup() {
  uint8_t *p = &grid[0][0];
  uint8_t (*row)[3] = grid + 1;
  OCR2A = p[4];
  OCR2B = (*row)[2] + *(*(grid + 1) + 1);
  OCR0A = sum(grid, 2);
  OCR0B = row - grid;
  const uint8_t *e = p + 6;
  OCR1A = e - p;
  uint8_t **pp = &p;
  (*pp)++;
  OCR1B = *p;
}
void loop() {}
