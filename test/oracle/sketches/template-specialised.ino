// Templates with values of their own for some types; a ring of samples.
template <typename T> struct Limits {
  static const uint8_t max = 10;
};
template <> struct Limits<uint16_t> {
  static const uint8_t max = 20;
};
template <typename T> struct Limits<T *> {
  static const uint8_t max = 30;
};
template <int N> uint8_t times() {
  return N * 2;
}
template <> uint8_t times<5>() {
  return 77;
}
template <typename T> uint8_t kind(T) {
  return 1;
}
template <> uint8_t kind(float) {
  return 2;
}
template <typename T, int N> class Ring {
  T data[N];
  uint8_t head = 0;
  static uint8_t count;
  public:
  void push(T v);
  T last() const {
    return data[(head + N - 1) % N];
  }
  static uint8_t made() {
    return count;
  }
};
template <typename T, int N> uint8_t Ring<T, N>::count = 7;
template <typename T, int N> void Ring<T, N>::push(T v) {
  data[head] = v;
  head = (head + 1) % N;
  count++;
}
Ring<uint8_t, 4> ring;
void setup() {
  OCR0A = Limits<uint8_t>::max;
  OCR0B = Limits<uint16_t>::max;
  OCR2A = Limits<char *>::max;
  OCR2B = times<3>() + times<5>() + kind(1) + kind(1.0f);
  ring.push(40);
  ring.push(41);
  OCR1A = ring.last();
  OCR1B = Ring<uint8_t, 4>::made();
}
void loop() {}
