// wants pump: 25 kHz within 21..28 kHz, duty 20..100 %, 100 steps
const byte pump = 10;

void setup() {
  pinMode(pump, OUTPUT);
  Serial.begin(115200);
}

void loop() {
  int knob = analogRead(A0);
  analogWrite(pump, knob / 4);
  delay(20);
}
