#include <avr/sleep.h>
#include <avr/wdt.h>

ISR(WDT_vect) {}

void nap() {
  cli();
  wdt_reset();
  MCUSR &= ~_BV(WDRF);
  WDTCSR = _BV(WDCE) | _BV(WDE);
  WDTCSR = _BV(WDIE) | _BV(WDP3);
  sei();
  set_sleep_mode(SLEEP_MODE_PWR_DOWN);
  sleep_enable();
  sleep_cpu();
  sleep_disable();
  wdt_disable();
}

void setup() { pinMode(6, OUTPUT); }

void loop() {
  analogWrite(6, 100);
  delay(200);
  analogWrite(6, 0);
  nap();
}
