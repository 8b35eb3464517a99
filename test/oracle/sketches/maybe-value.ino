// A value that may be missing.
template <typename T> class Maybe {
  T value;
  bool has;
  public:
  Maybe() : has(false) {}
  Maybe(T v) : value(v), has(true) {}
  explicit operator bool() const {
    return has;
  }
  T operator*() const {
    return value;
  }
  T orElse(T d) const {
    return has ? value : d;
  }
};
Maybe<uint8_t> parse(int x) {
  if (x < 0) return {};
  return Maybe<uint8_t>(x * 2);
}
void setup() {
  if (auto m = parse(30)) OCR2A = *m;
  OCR2B = parse(-1).orElse(99);
}
void loop() {}
