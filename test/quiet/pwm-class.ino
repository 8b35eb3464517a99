class Lamp {
 public:
  explicit Lamp(byte pin) : pin_(pin) {}
  void begin() { pinMode(pin_, OUTPUT); }
  void level(byte percent) { analogWrite(pin_, percent * 255 / 100); }
 private:
  byte pin_;
};
Lamp lamp(6);
void setup() { lamp.begin(); }
void loop() {
  lamp.level(30);
  delay(1000);
  lamp.level(60);
  delay(1000);
}
