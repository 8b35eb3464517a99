// Short, long, short: three pulses of unequal width each turn.
void setup() {
  pinMode(7, OUTPUT);
}

void pulse(int ms) {
  digitalWrite(7, HIGH);
  delay(ms);
  digitalWrite(7, LOW);
  delay(20);
}

void loop() {
  pulse(5);
  pulse(30);
  pulse(5);
}
//= signal D7 running: high
//= signal D7 running: low
//= signal D7 running: pulse 19.9638..40.0076 Hz, duty 19.95..60.04 %
