/** Macros of the C library's own headers, by header. Read off avr-libc 2.0.0; header guards are left out. */

const STDINT = `
__CONCATenate(left,right) left ## right
__CONCAT(left,right) __CONCATenate(left, right)
INT8_MAX 0x7f
INT8_MIN (-INT8_MAX - 1)
UINT8_MAX (INT8_MAX * 2 + 1)
INT16_MAX 0x7fff
INT16_MIN (-INT16_MAX - 1)
UINT16_MAX (__CONCAT(INT16_MAX, U) * 2U + 1U)
INT32_MAX 0x7fffffffL
INT32_MIN (-INT32_MAX - 1L)
UINT32_MAX (__CONCAT(INT32_MAX, U) * 2UL + 1UL)
INT64_MAX 0x7fffffffffffffffLL
INT64_MIN (-INT64_MAX - 1LL)
UINT64_MAX (__CONCAT(INT64_MAX, U) * 2ULL + 1ULL)
INTPTR_MAX INT16_MAX
INTPTR_MIN INT16_MIN
UINTPTR_MAX UINT16_MAX
INTMAX_MAX INT64_MAX
INTMAX_MIN INT64_MIN
UINTMAX_MAX UINT64_MAX
PTRDIFF_MAX INT16_MAX
PTRDIFF_MIN INT16_MIN
SIG_ATOMIC_MAX INT8_MAX
SIG_ATOMIC_MIN INT8_MIN
SIZE_MAX UINT16_MAX
WCHAR_MAX __WCHAR_MAX__
WCHAR_MIN __WCHAR_MIN__
WINT_MAX __WINT_MAX__
WINT_MIN __WINT_MIN__
INT8_C(c) __INT8_C(c)
INT16_C(c) __INT16_C(c)
INT32_C(c) __INT32_C(c)
INT64_C(c) __INT64_C(c)
INTMAX_C(c) __INTMAX_C(c)
UINT8_C(c) __UINT8_C(c)
UINT16_C(c) __UINT16_C(c)
UINT32_C(c) __UINT32_C(c)
UINT64_C(c) __UINT64_C(c)
UINTMAX_C(c) __UINTMAX_C(c)
${["LEAST", "FAST"]
  .flatMap((family) =>
    [8, 16, 32, 64].flatMap((bits) =>
      ["INT_MAX", "INT_MIN", "UINT_MAX"].map((name) => {
        const [type, end] = name.split("_");
        return `${type}_${family}${bits}_${end} ${type}${bits}_${end}`;
      }),
    ),
  )
  .join("\n")}
`;

const INTTYPES = ["d", "i", "o", "u", "x", "X"]
  .flatMap((letter) => [
    ...["", "LEAST", "FAST"].flatMap((family) => [
      `PRI${letter}${family}8 "${letter}"`,
      `PRI${letter}${family}16 "${letter}"`,
      `PRI${letter}${family}32 "l${letter}"`,
    ]),
    `PRI${letter}PTR PRI${letter}16`,
  ])
  .join("\n");

/** Single-precision names are aliases: float and double are the same here. */
const MATH_ALIASES =
  "cos sin tan fabs fmod cbrt hypot square floor ceil frexp ldexp exp cosh sinh tanh acos asin atan atan2 log log10 " +
  "pow isnan isinf isfinite copysign signbit fdim fma fmax fmin trunc round lround lrint";

const MATH = `
M_E 2.7182818284590452354
M_LOG2E 1.4426950408889634074
M_LOG10E 0.43429448190325182765
M_LN2 0.69314718055994530942
M_LN10 2.30258509299404568402
M_PI 3.14159265358979323846
M_PI_2 1.57079632679489661923
M_PI_4 0.78539816339744830962
M_1_PI 0.31830988618379067154
M_2_PI 0.63661977236758134308
M_2_SQRTPI 1.12837916709551257390
M_SQRT2 1.41421356237309504880
M_SQRT1_2 0.70710678118654752440
NAN __builtin_nan("")
INFINITY __builtin_inf()
${MATH_ALIASES.split(" ")
  .map((name) => `${name}f ${name}`)
  .join("\n")}
`;

const LIMITS = `
CHAR_BIT __CHAR_BIT__
MB_LEN_MAX 1
SCHAR_MIN (-SCHAR_MAX - 1)
SCHAR_MAX __SCHAR_MAX__
UCHAR_MAX (SCHAR_MAX * 2 + 1)
CHAR_MIN SCHAR_MIN
CHAR_MAX SCHAR_MAX
SHRT_MIN (-SHRT_MAX - 1)
SHRT_MAX __SHRT_MAX__
USHRT_MAX (SHRT_MAX * 2U + 1U)
INT_MIN (-INT_MAX - 1)
INT_MAX __INT_MAX__
UINT_MAX (INT_MAX * 2U + 1U)
LONG_MIN (-LONG_MAX - 1L)
LONG_MAX __LONG_MAX__
ULONG_MAX (LONG_MAX * 2UL + 1UL)
LLONG_MIN (-LLONG_MAX - 1LL)
LLONG_MAX __LONG_LONG_MAX__
ULLONG_MAX (LLONG_MAX * 2ULL + 1ULL)
LONG_LONG_MIN (-LONG_LONG_MAX - 1LL)
LONG_LONG_MAX __LONG_LONG_MAX__
ULONG_LONG_MAX (LONG_LONG_MAX * 2ULL + 1ULL)
`;

const STDDEF = `
= NULL offsetof
`;

const STDLIB = `
EXIT_SUCCESS 0
EXIT_FAILURE 1
RAND_MAX 0x7FFF
RANDOM_MAX 0x7FFFFFFF
DTOSTR_ALWAYS_SIGN 0x01
DTOSTR_PLUS_SIGN 0x02
DTOSTR_UPPERCASE 0x04
= labs
`;

const STDIO = `
EOF (-1)
SEEK_SET 0
SEEK_CUR 1
SEEK_END 2
BUFSIZ 1024
= stdin stdout stderr putc putchar getc getchar
`;

const FLOAT = `
FLT_RADIX __FLT_RADIX__
FLT_DIG __FLT_DIG__
FLT_MANT_DIG __FLT_MANT_DIG__
FLT_EPSILON __FLT_EPSILON__
FLT_MAX __FLT_MAX__
FLT_MIN __FLT_MIN__
DBL_DIG __DBL_DIG__
DBL_MANT_DIG __DBL_MANT_DIG__
DBL_EPSILON __DBL_EPSILON__
DBL_MAX __DBL_MAX__
DBL_MIN __DBL_MIN__
`;

/** Header, headers that it includes, macros. */
export const LIBC_HEADERS: readonly (readonly [string, readonly string[], string])[] = [
  ["stdint.h", [], STDINT],
  ["inttypes.h", ["stdint.h"], INTTYPES],
  ["stddef.h", [], STDDEF],
  ["stdlib.h", ["stddef.h"], STDLIB],
  ["string.h", ["stddef.h"], ""],
  ["strings.h", ["stddef.h"], ""],
  ["math.h", [], MATH],
  ["stdio.h", ["inttypes.h", "stdarg.h", "stddef.h"], STDIO],
  ["stdarg.h", [], "= va_start va_end va_copy\nva_arg(v,l) (*(l *) __builtin_va_arg(v))"],
  ["stdbool.h", [], "__bool_true_false_are_defined 1"],
  ["ctype.h", [], ""],
  ["limits.h", [], LIMITS],
  ["float.h", [], FLOAT],
  ["errno.h", [], "EDOM 33\nERANGE 34"],
  ["assert.h", [], "= assert"],
  ["setjmp.h", [], ""],
  ["time.h", ["inttypes.h", "stdlib.h"], ""],
  ["iso646.h", [], ""],
  ["alloca.h", ["stddef.h"], ""],
];
