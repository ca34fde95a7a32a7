package fieldkit

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// Money is an amount in hundredths of a currency named by its ISO 4217 code.
// Amounts of different currencies are never added.
type Money struct {
	Cents    int64
	Currency string // "USD"
}

// ParseMoney reads "12.50 USD", "12,50 EUR" or "12.50", a bare number in the
// given currency. Errors are of kind BadInput.
func ParseMoney(text, currency string) (Money, error) {
	s := strings.TrimSpace(text)
	if len(s) > MaxAmountText {
		return Money{}, badInput("that is too long for a price", "write 12.50 or 12.50 USD")
	}
	if m, ok := plainMoney(s); ok {
		return m, nil
	}
	unsigned, negative := cutMinus(s)
	number, rest, err := cutNumber(unsigned)
	if err != nil {
		return Money{}, badInput(fmt.Sprintf("%q is not a price: %s", s, err), "write 12.50 or 12.50 USD")
	}
	if rest != "" {
		currency = strings.ToUpper(rest)
	}
	if !isCurrency(currency) {
		return Money{}, badInput(fmt.Sprintf("%q does not name a currency", s), "write 12.50 USD")
	}
	scaled := new(big.Rat).Mul(number, big.NewRat(100, 1))
	if negative {
		scaled.Neg(scaled)
	}
	cents, ok := roundToInt64(scaled)
	if !ok || !scaled.IsInt() {
		return Money{}, badInput(fmt.Sprintf("%q has more than two decimals or is too large", s), "write 12.50")
	}
	return Money{Cents: cents, Currency: currency}, nil
}

// plainMoney reads what String prints, as nearly all prices of a kit are written; ok is
// false for whatever is not that, which may still be a price.
func plainMoney(s string) (m Money, ok bool) {
	digits, decimals, rest, ok := cutPlain(s)
	if !ok || decimals != 2 || len(digits) < 3 || len(rest) != 4 || rest[0] != ' ' || !isCurrency(rest[1:]) {
		return Money{}, false
	}
	cents, err := strconv.ParseInt(digits, 10, 64)
	return Money{cents, rest[1:]}, err == nil
}

func isCurrency(code string) bool {
	return len(code) == 3 && strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// Times returns n pieces' worth.
func (m Money) Times(n int) Money { return Money{m.Cents * int64(n), m.Currency} }

// IsZero reports an amount of nothing.
func (m Money) IsZero() bool { return m.Cents == 0 }

// String prints "12.50 USD".
func (m Money) String() string {
	sign, c := "", uint64(m.Cents)
	if m.Cents < 0 {
		sign, c = "-", -c
	}
	return strings.TrimSpace(sign + strconv.FormatUint(c/100, 10) + "." + padded(int(c%100), 2) + " " + m.Currency)
}

// MarshalText writes what String prints.
func (m Money) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads an amount that must name its currency; "0.00" is the zero
// Money.
func (m *Money) UnmarshalText(text []byte) error {
	if string(text) == (Money{}).String() {
		*m = Money{}
		return nil
	}
	parsed, err := ParseMoney(string(text), "")
	if err == nil {
		*m = parsed
	}
	return err
}
