// A logger that sleeps in power-save; timer 2 runs from the watch crystal and wakes it each eighth second.
#include <avr/sleep.h>
#include <avr/interrupt.h>
volatile byte ticks;

ISR(TIMER2_OVF_vect) { ticks++; }

void setup() {
  ASSR = _BV(AS2);
  TCCR2A = 0;
  TCCR2B = _BV(CS22) | _BV(CS20);
  while (ASSR & (_BV(TCN2UB) | _BV(TCR2AUB) | _BV(TCR2BUB))) ;
  TIMSK2 = _BV(TOIE2);
  set_sleep_mode(SLEEP_MODE_PWR_SAVE);
  sei();
}

void loop() {
  sleep_mode();
  if (ticks >= 8) {
    ticks = 0;
    digitalWrite(13, !digitalRead(13));
  }
}
