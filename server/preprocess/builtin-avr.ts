/**
 * Macros of avr-libc's avr/ and util/ headers that do not depend on the chip's tables. Read off avr-libc 2.0.0.
 *
 * Where the real ones are assembler, and where later stages model a whole action, the call is kept: `pgm_read_byte(p)`,
 * `wdt_reset()`, `set_sleep_mode(m)` stay as written, `sei()` becomes `__builtin_avr_sei()`. Interrupt routines become
 * plain functions `__isr_TIMER1_COMPA`, an atomic block a loop that runs once between two calls.
 */

const SFR_DEFS = `
__SFR_OFFSET 0x20
_SFR_ASM_COMPAT 0
_MMIO_BYTE(mem_addr) (*(volatile uint8_t *)(mem_addr))
_MMIO_WORD(mem_addr) (*(volatile uint16_t *)(mem_addr))
_MMIO_DWORD(mem_addr) (*(volatile uint32_t *)(mem_addr))
_SFR_MEM8(mem_addr) _MMIO_BYTE(mem_addr)
_SFR_MEM16(mem_addr) _MMIO_WORD(mem_addr)
_SFR_MEM32(mem_addr) _MMIO_DWORD(mem_addr)
_SFR_IO8(io_addr) _MMIO_BYTE((io_addr) + __SFR_OFFSET)
_SFR_IO16(io_addr) _MMIO_WORD((io_addr) + __SFR_OFFSET)
_SFR_MEM_ADDR(sfr) ((uint16_t) &(sfr))
_SFR_IO_ADDR(sfr) (_SFR_MEM_ADDR(sfr) - __SFR_OFFSET)
_SFR_IO_REG_P(sfr) (_SFR_MEM_ADDR(sfr) < 0x40 + __SFR_OFFSET)
_SFR_ADDR(sfr) _SFR_MEM_ADDR(sfr)
_SFR_BYTE(sfr) _MMIO_BYTE(_SFR_ADDR(sfr))
_SFR_WORD(sfr) _MMIO_WORD(_SFR_ADDR(sfr))
_SFR_DWORD(sfr) _MMIO_DWORD(_SFR_ADDR(sfr))
_BV(bit) (1 << (bit))
_VECTOR(N) __vector_ ## N
bit_is_set(sfr,bit) (_SFR_BYTE(sfr) & _BV(bit))
bit_is_clear(sfr,bit) (!(_SFR_BYTE(sfr) & _BV(bit)))
loop_until_bit_is_set(sfr,bit) do { } while (bit_is_clear(sfr, bit))
loop_until_bit_is_clear(sfr,bit) do { } while (bit_is_set(sfr, bit))
`;

const IO = `
_AVR_IO_H_
__AVR_LIBC_MAJOR__ 2
__AVR_LIBC_MINOR__ 0
__AVR_LIBC_REVISION__ 0
__AVR_LIBC_VERSION__ 20000UL
__AVR_LIBC_VERSION_STRING__ "2.0.0"
SREG_C (0)
SREG_Z (1)
SREG_N (2)
SREG_V (3)
SREG_S (4)
SREG_H (5)
SREG_T (6)
SREG_I (7)
PORT0 0
PORT1 1
PORT2 2
PORT3 3
PORT4 4
PORT5 5
PORT6 6
PORT7 7
DD0 0
DD1 1
DD2 2
DD3 3
DD4 4
DD5 5
DD6 6
DD7 7
PIN0 0
PIN1 1
PIN2 2
PIN3 3
PIN4 4
PIN5 5
PIN6 6
PIN7 7
`;

const INTERRUPT = `
_AVR_INTERRUPT_H_
? __STRINGIFY(x) #x
sei() __builtin_avr_sei()
cli() __builtin_avr_cli()
reti() __builtin_avr_reti()
ISR(vector,...) void vector(void) __VA_ARGS__
SIGNAL(vector) void vector(void)
EMPTY_INTERRUPT(vector) void vector(void) { }
ISR_ALIAS(vector,target) void vector(void) { target(); }
ISR_ALIASOF(target) { target(); }
ISR_BLOCK
ISR_NOBLOCK
ISR_NAKED
BADISR_vect __isr_BADISR
`;

const PGMSPACE = `
__PGMSPACE_H_ 1
PROGMEM
PGM_P const char *
PGM_VOID_P const void *
? PSTR(s) (s)
= pgm_read_byte pgm_read_word pgm_read_dword pgm_read_float pgm_read_ptr
= pgm_read_byte_near pgm_read_word_near pgm_read_dword_near pgm_read_float_near pgm_read_ptr_near
= pgm_get_far_address
`;

const ATOMIC = `
_UTIL_ATOMIC_H_ 1
ATOMIC_BLOCK(type) for (unsigned char __sreg_save = __pulsewright_atomic_begin(type), __todo = 1; __todo; __todo = __pulsewright_atomic_end(__sreg_save, type))
NONATOMIC_BLOCK(type) for (unsigned char __sreg_save = __pulsewright_atomic_begin(type), __todo = 1; __todo; __todo = __pulsewright_atomic_end(__sreg_save, type))
ATOMIC_RESTORESTATE 0
ATOMIC_FORCEON 1
NONATOMIC_RESTORESTATE 2
NONATOMIC_FORCEOFF 3
`;

const WDT = `
= wdt_reset
WDTO_15MS 0
WDTO_30MS 1
WDTO_60MS 2
WDTO_120MS 3
WDTO_250MS 4
WDTO_500MS 5
WDTO_1S 6
WDTO_2S 7
WDTO_4S 8
WDTO_8S 9
`;

/** sleep_mode is expanded, so that the sleep in it is seen where it happens. */
const SLEEP = `
= set_sleep_mode sleep_enable sleep_disable sleep_cpu sleep_bod_disable
sleep_mode() do { sleep_enable(); sleep_cpu(); sleep_disable(); } while (0)
`;

/** In the real header the divisions are an enumeration with these values. */
const POWER = `
= clock_prescale_set clock_prescale_get
clock_div_1 0
clock_div_2 1
clock_div_4 2
clock_div_8 3
clock_div_16 4
clock_div_32 5
clock_div_64 6
clock_div_128 7
clock_div_256 8
`;

const TWI = `
TW_START 0x08
TW_REP_START 0x10
TW_MT_SLA_ACK 0x18
TW_MT_SLA_NACK 0x20
TW_MT_DATA_ACK 0x28
TW_MT_DATA_NACK 0x30
TW_MT_ARB_LOST 0x38
TW_MR_ARB_LOST 0x38
TW_MR_SLA_ACK 0x40
TW_MR_SLA_NACK 0x48
TW_MR_DATA_ACK 0x50
TW_MR_DATA_NACK 0x58
TW_ST_SLA_ACK 0xA8
TW_ST_ARB_LOST_SLA_ACK 0xB0
TW_ST_DATA_ACK 0xB8
TW_ST_DATA_NACK 0xC0
TW_ST_LAST_DATA 0xC8
TW_SR_SLA_ACK 0x60
TW_SR_ARB_LOST_SLA_ACK 0x68
TW_SR_GCALL_ACK 0x70
TW_SR_ARB_LOST_GCALL_ACK 0x78
TW_SR_DATA_ACK 0x80
TW_SR_DATA_NACK 0x88
TW_SR_GCALL_DATA_ACK 0x90
TW_SR_GCALL_DATA_NACK 0x98
TW_SR_STOP 0xA0
TW_NO_INFO 0xF8
TW_BUS_ERROR 0x00
TW_STATUS_MASK (_BV(TWS7)|_BV(TWS6)|_BV(TWS5)|_BV(TWS4)|_BV(TWS3))
TW_STATUS (TWSR & TW_STATUS_MASK)
TW_READ 1
TW_WRITE 0
`;

/**
 * Header, headers that it includes, macros. A name that begins with \0 is no file, but what two headers have in common.
 * `avr/io.h` and `avr/power.h` get more from the chip's tables.
 */
export const AVR_HEADERS: readonly (readonly [string, readonly string[], string])[] = [
  ["avr/sfr_defs.h", ["inttypes.h"], SFR_DEFS],
  ["avr/io.h", ["avr/sfr_defs.h"], IO],
  ["avr/portpins.h", ["avr/io.h"], ""],
  ["avr/common.h", ["avr/io.h"], ""],
  ["avr/version.h", ["avr/io.h"], ""],
  ["avr/fuse.h", ["avr/io.h"], ""],
  ["avr/lock.h", ["avr/io.h"], ""],
  ["avr/builtins.h", [], ""],
  ["avr/interrupt.h", ["avr/io.h"], INTERRUPT],
  ["avr/pgmspace.h", ["inttypes.h", "stddef.h", "avr/io.h"], PGMSPACE],
  ["avr/wdt.h", ["avr/io.h"], WDT],
  ["avr/sleep.h", ["avr/io.h"], SLEEP],
  ["avr/power.h", ["avr/io.h"], POWER],
  ["\0nop", [], "_NOP() __builtin_avr_nop()"],
  ["avr/cpufunc.h", ["\0nop"], "= _MemoryBarrier"],
  ["avr/eeprom.h", ["avr/io.h", "stddef.h"], "EEMEM\n= eeprom_is_ready eeprom_busy_wait _EEPUT _EEGET"],
  ["avr/boot.h", ["avr/io.h"], "= boot_signature_byte_get boot_lock_fuse_bits_get boot_page_fill boot_page_write"],
  ["util/delay_basic.h", ["inttypes.h"], ""],
  ["util/delay.h", ["inttypes.h", "util/delay_basic.h", "math.h"], ""],
  ["util/atomic.h", ["avr/io.h", "avr/interrupt.h"], ATOMIC],
  ["util/twi.h", ["avr/io.h"], TWI],
  ["util/crc16.h", ["stdint.h"], ""],
  ["util/parity.h", [], "= parity_even_bit"],
  // Older names for the same.
  ["compat/twi.h", ["util/twi.h"], ""],
  ["avr/delay.h", ["util/delay.h"], ""],
  ["avr/signal.h", ["avr/interrupt.h"], ""],
  ["avr/crc16.h", ["util/crc16.h"], ""],
  ["avr/parity.h", ["util/parity.h"], ""],
];
