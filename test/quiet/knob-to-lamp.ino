int lamp = 3;
int knob = A0;
void setup() { pinMode(lamp, OUTPUT); Serial.begin(9600); }
void loop() {
  int value = analogRead(knob) / 4;
  Serial.println(value);
  analogWrite(lamp, value);
}
