void setup() { pinMode(7, OUTPUT); }
void loop() {
  analogWrite(7, analogRead(A0) / 4);
//= finding pin-without-timer "No timer drives D7: analogWrite only switches it, low below 128 and high from 128 on"
//= fix "Write what it does: digitalWrite"
  delay(20);
}
