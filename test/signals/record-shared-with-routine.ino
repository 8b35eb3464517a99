// A routine may come between the main program's write to a record and its reading it again, whole or by its member.
struct Lamp { byte level; byte hours; };
Lamp lamp = {5, 1};
volatile byte table[4];

ISR(TIMER1_OVF_vect) {
  lamp.level = 77;
  table[2] = 9;
}

void setup() {
  TIMSK1 = _BV(TOIE1);
}

void loop() {
  lamp.level = 5;
  Lamp copy = lamp;
  analogWrite(3, copy.level);
  lamp.level = 6;
  analogWrite(11, lamp.level);
  table[2] = 4;
  table[1] = 3;
  OCR1A = table[2];
  OCR1B = table[1];
  analogWrite(5, copy.hours);
  delay(3);
}
//= signal D3 running: pulse 490.196 Hz, duty 1.96..30.2 %
//= signal D11 running: pulse 490.196 Hz, duty 2.35..30.2 %
//= signal D5 running: pulse 976.563 Hz, duty 0.781 %
