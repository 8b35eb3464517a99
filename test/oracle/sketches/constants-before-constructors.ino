// What needs no code is set before the first constructor runs, wherever it stands.
class Dimmer {
 public:
  Dimmer();
  byte level;
};
Dimmer dimmer;
byte made = 3;
byte counted;
template <int N> struct Size { static const int value = N; };
Dimmer::Dimmer() : level(made) { counted = 9; OCR2A = Size<40>::value; made++; }
byte reading = 1, previous = 0;
void setup() {
  OCR0A = dimmer.level * 10 + made;
  OCR0B = counted;
  if ((HIGH) == (reading) && previous == LOW && OCR0B > 3) OCR2B = 77;
  OCR1A = (reading) - 1 + (previous) * 5 + (counted) + 2;
}
void loop() {}
