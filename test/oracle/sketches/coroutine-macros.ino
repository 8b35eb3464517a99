// A lamp's sequence as a coroutine made of macros.
#define PT_BEGIN switch (line) { case 0:
#define PT_DELAY(ms) do { since = millis(); line = __LINE__; return; case __LINE__: if (millis() - since < (ms)) return; } while (0)
#define PT_END } line = 0
static uint16_t line; static uint32_t since;
void run() {
  PT_BEGIN
  OCR2B = 40;
  PT_DELAY(100);
  OCR2B = 80;
  PT_DELAY(100);
  OCR2B = 120;
  PT_DELAY(50);
  PT_END;
}
void setup() { DDRD |= 8; TCCR2A |= _BV(COM2B1); }
void loop() { run(); }
