// Pins and bits given as packs: as many outputs as the greenhouse has.
template <typename T> void total(uint8_t &sum, T v) {
  sum += v;
}
template <typename T, typename... Rest> void total(uint8_t &sum, T v, Rest... rest) {
  sum += v;
  total(sum, rest...);
}
template <typename... Pins> void outputs(Pins... pins) {
  const uint8_t list[] = { static_cast<uint8_t>(pins)... };
  for (uint8_t p : list) pinMode(p, OUTPUT);
  OCR0B = sizeof...(pins);
}
template <uint8_t... Bits> struct Mask;
template <> struct Mask<> {
  static constexpr uint8_t value = 0;
};
template <uint8_t First, uint8_t... Rest> struct Mask<First, Rest...> {
  static constexpr uint8_t value = (1 << First) | Mask<Rest...>::value;
};
void setup() {
  outputs(3, 11, 5);
  uint8_t s = 0;
  total(s, 10, 20, 30);
  OCR2A = s;
  TCCR2A = Mask<WGM20, WGM21, COM2A1, COM2B1>::value;
  OCR2B = 150;
}
void loop() {}
