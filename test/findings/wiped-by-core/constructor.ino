class Fan {
  public:
    Fan() { TCCR2B = _BV(CS21); }
//=         ^^^^^^^^^^^^^^^^^^ finding wiped-by-core "0x02 is written before the core's init, which changes it to 0x06"
};
Fan fan;
void setup() {}
void loop() { analogWrite(3, 60); }
