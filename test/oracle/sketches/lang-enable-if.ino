// templates ruled out by their types, an array class, types asked of expressions
template <bool C, typename T = void> struct enable_if {};
template <typename T> struct enable_if<true, T> { typedef T type; };
template <typename A, typename B> struct is_same { static constexpr bool value = false; };
template <typename A> struct is_same<A, A> { static constexpr bool value = true; };
template <typename T> struct remove_volatile { typedef T type; };
template <typename T> struct remove_volatile<volatile T> { typedef T type; };
template <typename T> typename enable_if<sizeof(T) == 1, uint8_t>::type wide(T v) { return v; }
template <typename T> typename enable_if<(sizeof(T) > 1), uint8_t>::type wide(T v) { return v >> 4; }
template <typename R> void put(R &reg, typename remove_volatile<R>::type v) { reg = v; }
template <uint8_t N, typename T = uint8_t> struct Ramp {
  T v[N];
  constexpr Ramp() : v() {}
  T &operator[](uint8_t i) { return v[i]; }
  T *begin() { return v; }
  T *end() { return v + N; }
  static constexpr uint8_t size() { return N; }
};
Ramp<5> ramp;
void setup() {
  DDRB |= 8; DDRD |= 8; TCCR2A = 0xA3;
  uint8_t k = 0;
  for (auto &x : ramp) x = k += 7;
  put(OCR2A, wide((uint8_t)ramp[3]) + wide(0x345));
  put(OCR2B, is_same<decltype(ramp[0]), uint8_t &>::value ? ramp.size() * 10 : 1);
}
void loop() {}
