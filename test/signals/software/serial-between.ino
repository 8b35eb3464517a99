// What is printed in between takes as long as it takes.
void setup() {
  Serial.begin(9600);
  pinMode(4, OUTPUT);
}

void loop() {
  digitalWrite(4, HIGH);
  delay(5);
  digitalWrite(4, LOW);
  Serial.println("beat");
  delay(5);
}
//= signal D4 running: high
//= signal D4 running: low
//= signal D4 running: pulse not timed
