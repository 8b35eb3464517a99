// Arithmetic of a class of the sketch's own.
struct Vec {
  int x, y;
  friend Vec operator+(const Vec &a, const Vec &b) {
    Vec r = { a.x + b.x, a.y + b.y };
    return r;
  }
  bool operator==(const Vec &o) const {
    return x == o.x && y == o.y;
  }
  Vec &operator+=(int k) {
    x += k;
    y += k;
    return *this;
  }
  Vec operator-() const {
    return { -x, -y };
  }
  Vec &operator++() {
    x++;
    y++;
    return *this;
  }
  Vec operator++(int) {
    Vec t = *this;
    ++*this;
    return t;
  }
};
Vec operator*(const Vec &a, int k) {
  return Vec{ a.x * k, a.y * k };
}
Print &operator<<(Print &p, const Vec &v) {
  p.print(v.x);
  return p;
}
void setup() {
  Vec a = { 10, 20 }, b{ 5, 5 };
  Vec c = a + b * 2;
  c += 1;
  c++;
  Vec n = -c;
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  if (c == Vec{ 22, 32 }) {
    analogWrite(9, c.x);
    analogWrite(10, -n.y);
  }
  Serial.begin(9600);
  Serial << c;
}
void loop() {}
