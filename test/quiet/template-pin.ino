// Pins as template parameters, as small libraries do it.
template <uint8_t PIN>
struct Lamp {
  static void begin() { pinMode(PIN, OUTPUT); }
  static void level(uint8_t v) { analogWrite(PIN, v); }
  static void off() { digitalWrite(PIN, LOW); }
};

template <typename T>
T limited(T v, T low, T high) { return v < low ? low : (v > high ? high : v); }

typedef Lamp<5> Porch;
typedef Lamp<6> Path;

void setup() {
  Porch::begin();
  Path::begin();
}

void loop() {
  int dusk = limited(analogRead(A3), 100, 900);
  Porch::level(map(dusk, 100, 900, 255, 0));
  if (dusk > 800) Path::off(); else Path::level(40);
  delay(100);
}
