// Values of templates behind a comparison, and in parentheses in front of an operator.
template <int N> struct Size { static const int value = N; };
template <int N, int M> struct Sum { static const int value = N + M; };
template <int N> struct Rec { enum { value = N + Rec<N - 1>::value }; };
template <> struct Rec<0> { enum { value = 0 }; };
int f(int n) { return n < Size<2>::value ? 1 : n * f(n - 1); }
void setup() {
  {}
  byte k = 0;
  for (int i = 0; i < Size<5>::value; i++) k += 2;
  OCR2A = k;
  for (int i = 0; i < 1 + Sum<5, 2>::value; i++) k += 1;
  OCR2B = k;
  OCR0A = (Size<20>::value) * 2 + 1;
  OCR0B = (Size<20>::value) + 3 << 1;
  OCR1A = f(5);
  OCR1B = Rec<10>::value;
}
void loop() {}
