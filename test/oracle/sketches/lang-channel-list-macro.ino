// a list macro that makes an enumeration, names and a switch
#define CHANNELS(X) X(lamp, 0, A, D, 6) X(fan, 0, B, D, 5) X(pump, 2, B, D, 3)
enum Channel {
#define X(name, t, ch, port, bit) CH_##name,
  CHANNELS(X)
#undef X
  CHANNEL_COUNT
};
static const char *const names[CHANNEL_COUNT] = {
#define X(name, t, ch, port, bit) #name,
  CHANNELS(X)
#undef X
};
void put(Channel c, uint8_t v) {
  switch (c) {
#define X(name, t, ch, port, bit) case CH_##name: OCR##t##ch = v; TCCR##t##A |= _BV(COM##t##ch##1); DDR##port |= _BV(bit); break;
    CHANNELS(X)
#undef X
    default: break;
  }
}
void setup() {
  for (int i = 0; i < CHANNEL_COUNT; i++) put((Channel)i, 10 * (i + 1) + strlen(names[i]));
}
void loop() {}
