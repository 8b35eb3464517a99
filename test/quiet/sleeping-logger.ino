#include <avr/sleep.h>
#include <avr/wdt.h>
ISR(WDT_vect) {}
void setup() {
  wdt_enable(WDTO_8S);
  WDTCSR |= _BV(WDIE);
  set_sleep_mode(SLEEP_MODE_PWR_DOWN);
}
void loop() {
  sleep_enable();
  sleep_cpu();
  sleep_disable();
  digitalWrite(13, HIGH);
  delay(5);
  digitalWrite(13, LOW);
}
