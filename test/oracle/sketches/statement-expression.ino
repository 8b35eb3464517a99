// The greater of two duties, by a macro that evaluates once.
#define MAXOF(a, b) ({ __typeof__(a) _a = (a); __typeof__(b) _b = (b); _a > _b ? _a : _b; })
void setup() {
  pinMode(9, OUTPUT);
  analogWrite(9, MAXOF(30, MAXOF(12, 60)));
}
void loop() {}
