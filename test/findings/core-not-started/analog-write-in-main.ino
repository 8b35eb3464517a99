int main(void) {
  DDRD |= (1 << PD5);
  for (;;) { analogWrite(5, 60); }
//=          ^^^^^^^^^^^^^^^^^^ finding core-not-started "analogWrite gives no pulse, because this main() never calls init()"
//= fix "Call init() first"
}
