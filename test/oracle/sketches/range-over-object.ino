// A list of pins that is an object, walked by its own iterators.
template <typename T, size_t N> struct Array {
  T d[N];
  constexpr size_t size() const {
    return N;
  }
  T &operator[](size_t i) {
    return d[i];
  }
  const T &operator[](size_t i) const {
    return d[i];
  }
  T *begin() {
    return d;
  }
  T *end() {
    return d + N;
  }
};
Array<uint8_t, 3> pins = { { 3, 5, 6 } };
void setup() {
  uint8_t k = 0;
  for (uint8_t &p : pins) {
    pinMode(p, OUTPUT);
    k += p;
  } pins[1] = 9;
  for (auto it = pins.begin(); it != pins.end(); ++it) analogWrite(*it, 40);
  OCR2A = k + pins.size();
}
void loop() {}
