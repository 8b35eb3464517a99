// Settings packed into bits: no field minds the bytes' borders.
struct A {
  uint8_t a : 5;
  uint8_t b : 5;
  uint8_t c : 3;
  bool d : 1;
  uint16_t e : 12;
  uint8_t f : 1;
};
struct B {
  unsigned a : 7;
  unsigned b : 9;
  unsigned c : 16;
  int8_t d : 2;
  long e : 20;
  uint8_t g;
  uint8_t h : 4;
};
union {
  A a;
  uint8_t raw[16];
} u;
union {
  B b;
  uint8_t raw[16];
} v;
void setup() {
  u.a.a = 21;
  u.a.b = 19;
  u.a.c = 5;
  u.a.d = 1;
  u.a.e = 0xABC;
  u.a.f = 1;
  v.b.a = 99;
  v.b.b = 300;
  v.b.c = 0x1234;
  v.b.d = -1;
  v.b.e = -5;
  v.b.g = 7;
  v.b.h = 9;
  OCR0A = u.raw[0];
  OCR0B = u.raw[1];
  OCR2A = u.raw[2];
  OCR2B = u.raw[3];
  OCR1A = u.raw[4] | v.raw[0] << 8;
  OCR1B = v.raw[1] | v.raw[2] << 8;
  ICR1 = sizeof(A) + sizeof(B) * 16;
}
void loop() {}
