// Comparisons whose marks look like a template's: what stands between them are calls, elements and products.
namespace Lamp { const int level = 6; }
int x = 1, i = 2, b = 3;
int table[4] = {1, 2, 12, 4};
int p[3][3] = {{1,2,3},{4,5,6},{7,8,9}};
int f(int n = 5) { return n * 3; }
int g(int n, int m) { return n + m; }
void setup() {
  OCR0A = (x < table[i] >> 1) + 10;
  OCR0B = (x < f() >> 2) + 20;
  OCR1A = (x < g(i, f(b)) >> 1) + 30;
  OCR1B = (x < Lamp::level >> 1) + 40;
  OCR2A = (x < p[i][2] >> 3) + 50;
  OCR2B = (x < int(b) >> 1) * 2 + (x < f(i*b) >> 1) + (x < f(i & b) >= 1) * 4 + 60;
  ICR1 = (x < g(i && b, p[1][1]) >= 1) + 2 * (x < table[i] >= 1 && b) + 70;
}
void loop() {}
