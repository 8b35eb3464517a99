// Divisions of 32 bits between the edges.
volatile long reading = 1234567;
volatile long scaled;

void setup() {
  DDRB |= 1;
}

void loop() {
  PORTB |= 1;
  scaled = map(reading, 0, 1023, 0, 255);
  PORTB &= ~1;
  scaled = reading / 7 % 1000;
  reading += 3;
}
