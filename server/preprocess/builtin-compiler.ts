/**
 * Macros that the compiler defines by itself. Read off avr-gcc 5.4.0, `-mmcu=atmega328p -std=gnu++11 -dM`; those for
 * fixed-point types, decimal floats and its own built-in functions are left out: sketches do not ask for them.
 */

export const COMPILER_MACROS = `
AVR 1
__AVR 1
__AVR__ 1
__AVR_ENHANCED__ 1
__AVR_HAVE_16BIT_SP__ 1
__AVR_HAVE_JMP_CALL__ 1
__AVR_HAVE_LPMX__ 1
__AVR_HAVE_MOVW__ 1
__AVR_HAVE_MUL__ 1
__AVR_HAVE_SPH__ 1
__AVR_MEGA__ 1
__AVR_SFR_OFFSET__ 0x20
__WITH_AVRLIBC__ 1
__ELF__ 1
__GNUC__ 5
__GNUC_MINOR__ 4
__GNUC_PATCHLEVEL__ 0
__VERSION__ "5.4.0"
__OPTIMIZE__ 1
__OPTIMIZE_SIZE__ 1
__STDC__ 1
__STDC_HOSTED__ 1
__BYTE_ORDER__ __ORDER_LITTLE_ENDIAN__
__FLOAT_WORD_ORDER__ __ORDER_LITTLE_ENDIAN__
__ORDER_BIG_ENDIAN__ 4321
__ORDER_LITTLE_ENDIAN__ 1234
__ORDER_PDP_ENDIAN__ 3412
__CHAR_BIT__ 8
__SCHAR_MAX__ 0x7f
__SHRT_MAX__ 0x7fff
__INT_MAX__ 0x7fff
__LONG_MAX__ 0x7fffffffL
__LONG_LONG_MAX__ 0x7fffffffffffffffLL
__INT8_MAX__ 0x7f
__INT16_MAX__ 0x7fff
__INT32_MAX__ 0x7fffffffL
__INT64_MAX__ 0x7fffffffffffffffLL
__UINT8_MAX__ 0xff
__UINT16_MAX__ 0xffffU
__UINT32_MAX__ 0xffffffffUL
__UINT64_MAX__ 0xffffffffffffffffULL
__INTMAX_MAX__ 0x7fffffffffffffffLL
__UINTMAX_MAX__ 0xffffffffffffffffULL
__INTPTR_MAX__ 0x7fff
__UINTPTR_MAX__ 0xffffU
__SIZE_MAX__ 0xffffU
__PTRDIFF_MAX__ 0x7fff
__WCHAR_MAX__ 0x7fff
__WCHAR_MIN__ (-__WCHAR_MAX__ - 1)
__WINT_MAX__ 0x7fff
__WINT_MIN__ (-__WINT_MAX__ - 1)
__INT8_TYPE__ signed char
__INT16_TYPE__ int
__INT32_TYPE__ long int
__INT64_TYPE__ long long int
__UINT8_TYPE__ unsigned char
__UINT16_TYPE__ unsigned int
__UINT32_TYPE__ long unsigned int
__UINT64_TYPE__ long long unsigned int
__SIZE_TYPE__ unsigned int
__PTRDIFF_TYPE__ int
__INT8_C(c) c
__INT16_C(c) c
__INT32_C(c) c ## L
__INT64_C(c) c ## LL
__INTMAX_C(c) c ## LL
__UINT8_C(c) c
__UINT16_C(c) c ## U
__UINT32_C(c) c ## UL
__UINT64_C(c) c ## ULL
__UINTMAX_C(c) c ## ULL
__SIZEOF_DOUBLE__ 4
__SIZEOF_FLOAT__ 4
__SIZEOF_INT__ 2
__SIZEOF_LONG__ 4
__SIZEOF_LONG_DOUBLE__ 4
__SIZEOF_LONG_LONG__ 8
__SIZEOF_POINTER__ 2
__SIZEOF_PTRDIFF_T__ 2
__SIZEOF_SHORT__ 2
__SIZEOF_SIZE_T__ 2
__SIZEOF_WCHAR_T__ 2
__FLT_RADIX__ 2
__FLT_DIG__ 6
__FLT_MANT_DIG__ 24
__FLT_EPSILON__ 1.19209290e-7F
__FLT_MAX__ 3.40282347e+38F
__FLT_MIN__ 1.17549435e-38F
__DBL_DIG__ 6
__DBL_MANT_DIG__ 24
__DBL_EPSILON__ double(1.19209290e-7L)
__DBL_MAX__ double(3.40282347e+38L)
__DBL_MIN__ double(1.17549435e-38L)
__DATE__ "??? ?? ????"
__TIME__ "??:??:??"
__TIMESTAMP__ "??? ??? ?? ??:??:?? ????"
= __has_include __has_include_next
_Pragma(text)
`;

/** In C++ files alone. */
export const CPLUSPLUS_MACROS = `
__cplusplus 201103L
__GNUG__ 5
__GXX_WEAK__ 1
__GXX_EXPERIMENTAL_CXX0X__ 1
__DEPRECATED 1
__cpp_alias_templates 200704
__cpp_attributes 200809
__cpp_binary_literals 201304
__cpp_constexpr 200704
__cpp_decltype 200707
__cpp_delegating_constructors 200604
__cpp_inheriting_constructors 200802
__cpp_initializer_lists 200806
__cpp_lambdas 200907
__cpp_nsdmi 200809
__cpp_range_based_for 200907
__cpp_raw_strings 200710
__cpp_ref_qualifiers 200710
__cpp_rvalue_reference 200610
__cpp_static_assert 200410
__cpp_unicode_literals 200710
__cpp_user_defined_literals 200809
__cpp_variadic_templates 200704
`;

/** In C files alone. */
export const C_MACROS = `
__STDC_VERSION__ 201112L
`;
