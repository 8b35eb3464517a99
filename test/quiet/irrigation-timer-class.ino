class Timer1Tick {
 public:
  void begin(uint32_t hz) {
    noInterrupts();
    TCCR1A = 0;
    TCCR1B = 0;
    TCNT1 = 0;
    OCR1A = F_CPU / 256 / hz - 1;
    TCCR1B |= _BV(WGM12);
    TCCR1B |= _BV(CS12);
    TIMSK1 |= _BV(OCIE1A);
    interrupts();
  }
};
Timer1Tick tick;
volatile uint16_t count;
ISR(TIMER1_COMPA_vect) { count++; }
void setup() { tick.begin(10); }
void loop() {}
