// A stepper that winds the shade: one step each compare interrupt, its speed by OCR1A.
const int STEP_PIN = 4;
const int DIR_PIN = 7;
volatile long position = 0;
volatile long target = 0;

ISR(TIMER1_COMPA_vect) {
  if (position == target) return;
  PORTD |= (1 << PD4);
  position += target > position ? 1 : -1;
  PORTD &= ~(1 << PD4);
}

void setup() {
  pinMode(STEP_PIN, OUTPUT);
  pinMode(DIR_PIN, OUTPUT);
  noInterrupts();
  TCCR1A = 0;
  TCCR1B = 0;
  TCNT1 = 0;
  OCR1A = 1999;
  TCCR1B |= (1 << WGM12);
  TCCR1B |= (1 << CS11);
  TIMSK1 |= (1 << OCIE1A);
  interrupts();
}

void loop() {
  long next = digitalRead(2) == LOW ? 4000 : 0;
  noInterrupts();
  target = next;
  interrupts();
  digitalWrite(DIR_PIN, next > 0);
  delay(50);
}
