// A lamp that is dimmed by an encoder, a vent by two buttons, a pump by a count that runs up and starts again.
volatile int turns = 0;
struct Vent { int opening; byte speed; };
Vent vent = {40, 3};
int level = 0;
void turned() {
  if (digitalRead(4)) turns++; else turns--;
}
void setup() {
  pinMode(3, OUTPUT); pinMode(5, OUTPUT); pinMode(6, OUTPUT);
  attachInterrupt(digitalPinToInterrupt(2), turned, RISING);
}
void loop() {
  int now = turns;
  if (now > 20) { now = 20; turns = 20; }
  if (now < 0) { now = 0; turns = 0; }
  analogWrite(3, 30 + now * 10);
  if (!digitalRead(7) && vent.opening < 180) vent.opening += vent.speed;
  if (!digitalRead(8) && vent.opening > 20) vent.opening -= vent.speed;
  analogWrite(5, vent.opening);
  level += 7;
  if (level > 200) level = 0;
  analogWrite(6, level + random(3));
  delay(20);
}

//= signal D3 running: pulse 490.196 Hz, duty 11.76..90.2 %, steps 256
//= signal D5 running: pulse 976.5625 Hz, duty 7.42..71.48 %, steps 256
//= signal D6 running: pulse 976.5625 Hz, duty 0.78..79.3 %, steps 256
//= signal D6 running: low
