// Classes that call what they are given: derived writers, lambdas, a function as template argument.
template <class D> class Base {
  public:
  void apply(uint8_t v) {
    static_cast<D *>(this)->write(v);
  }
};
class A : public Base<A> {
  public:
  void write(uint8_t v) {
    OCR2A = v;
  }
};
class B : public Base<B> {
  public:
  void write(uint8_t v) {
    OCR2B = v / 2;
  }
};
A a;
B b;
template <class T> void both(T &x) {
  x.apply(80);
}
template <typename F> void times(uint8_t n, F f) {
  for (uint8_t i = 0; i < n; i++) f(i);
}
template <volatile uint8_t *const *R> struct X {};
template <void (*Fn)(uint8_t)> void call(uint8_t v) {
  Fn(v);
}
void put(uint8_t v) {
  OCR0A = v;
}
void setup() {
  both(a);
  both(b);
  uint8_t sum = 0;
  times(4, [&](uint8_t i) { sum += i; });
  OCR0B = sum;
  call<put>(9);
}
void loop() {}
