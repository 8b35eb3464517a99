// Members, elements and what pointers name, held within bounds; a prescaler chosen by ?:.
struct Lamp {
  int mode; int level;
  void run() { if (mode == 2) OCR2A = mode * 10; else OCR2A = 3;
    if (level > 100) level = 100; if (level < 20) level = 20; analogWrite(9, level); }
};
Lamp lamp;
int levels[3];
void hold(int &x, int *y) { if (x > 50) x = 50; if (x < 10) x = 10; if (*y > 60) *y = 60; if (*y < 30) *y = 30; }
void setup() { pinMode(9, OUTPUT); pinMode(3, OUTPUT); TCCR2A = _BV(COM2B1) | _BV(WGM20) | _BV(WGM21); TCCR2B = 4; }
void loop() {
  lamp.mode = digitalRead(4) ? 2 : 5;
  lamp.level = analogRead(A0);
  lamp.run();
  levels[1] = analogRead(A1); levels[2] = analogRead(A2);
  hold(levels[1], &levels[2]);
  analogWrite(5, levels[1]); analogWrite(6, levels[2]);
  TCCR2B = (TCCR2B & 0xF8) | (digitalRead(7) ? 1 : 5);
  TCCR1B = (TCCR1B & 0xF8) | (lamp.mode > 3 ? 1 : 5);
  delay(10);
}
