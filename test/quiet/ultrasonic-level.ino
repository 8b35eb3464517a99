void setup() {
  pinMode(7, OUTPUT);
  pinMode(8, INPUT);
  Serial.begin(9600);
}
void loop() {
  digitalWrite(7, LOW);
  delayMicroseconds(2);
  digitalWrite(7, HIGH);
  delayMicroseconds(10);
  digitalWrite(7, LOW);
  long duration = pulseIn(8, HIGH);
  Serial.println(duration / 58);
  delay(100);
}
