// A pump behind two interfaces.
struct Readable {
  virtual int read() const = 0;
};
struct Writable {
  virtual void write(int v) = 0;
  int last = 3;
};
class Dev : public Readable, public Writable {
  uint8_t reg = 10;
  public:
  int read() const override {
    return reg;
  }
  void write(int v) override {
    reg = v;
    OCR2A = v;
    last = v + 1;
  }
};
Dev dev;
void poke(Writable &w, const Readable &r) {
  w.write(r.read() + 5);
  OCR2B = w.last;
}
void setup() {
  poke(dev, dev);
  Writable *w = &dev;
  w->write(50);
  OCR0A = static_cast<Dev *>(w)->read();
}
void loop() {}
