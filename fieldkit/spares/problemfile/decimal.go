package problemfile

import (
	"encoding/json"
	"math/big"
	"strconv"
	"strings"
)

// decimal is an amount as it was written: digits × 10^−scale. The zero decimal is 0.
type decimal struct {
	digits *big.Int
	scale  int // decimals, 0 or more
}

// mostSteps bounds a limit in steps, so that sums stay exact (see optimum.Problem).
const mostSteps = 1_000_000_000_000_000

// parseDecimal reads a JSON number of 0 or more and below 10^15.
func parseDecimal(raw json.RawMessage) (decimal, bool) {
	if len(raw) > 0 && len(raw) <= 15 && raw[0] != '0' { // most are whole numbers: the short way
		if n, err := strconv.ParseUint(string(raw), 10, 64); err == nil {
			return decimal{digits: new(big.Int).SetUint64(n)}, true
		}
	}
	var n json.Number
	if err := json.Unmarshal(raw, &n); err != nil || n == "" || raw[0] == '"' {
		return decimal{}, false
	}
	text := n.String()
	exponent := 0
	if i := strings.IndexAny(text, "eE"); i >= 0 {
		e, err := strconv.Atoi(text[i+1:])
		if err != nil || e > 400 || e < -400 {
			return decimal{}, false
		}
		text, exponent = text[:i], e
	}
	if i := strings.IndexByte(text, '.'); i >= 0 {
		exponent -= len(text) - i - 1
		text = text[:i] + text[i+1:]
	}
	if len(text) > 400 {
		return decimal{}, false
	}
	digits, ok := new(big.Int).SetString(text, 10)
	if !ok || digits.Sign() < 0 {
		return decimal{}, false
	}
	if digits.Sign() == 0 {
		return decimal{}, true
	}
	if exponent > 0 {
		digits.Mul(digits, power(exponent))
		exponent = 0
	}
	d := decimal{digits, -exponent}
	ten := big.NewInt(10)
	for d.scale > 0 {
		q, rest := new(big.Int).QuoRem(d.digits, ten, new(big.Int))
		if rest.Sign() != 0 {
			break
		}
		d.digits, d.scale = q, d.scale-1
	}
	return d, d.steps(0, false).Cmp(big.NewInt(mostSteps)) < 0
}

func power(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }

// steps is the amount in steps of 10^−scale, rounded down or up, not to be changed.
func (d decimal) steps(scale int, up bool) *big.Int {
	if d.digits == nil {
		return new(big.Int)
	}
	if scale == d.scale {
		return d.digits
	}
	if scale > d.scale {
		return new(big.Int).Mul(d.digits, power(scale-d.scale))
	}
	q, rest := new(big.Int).QuoRem(d.digits, power(d.scale-scale), new(big.Int))
	if up && rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	return q
}

// toSteps turns a limit and the amounts taken of it into whole steps: of the finest
// decimal among them, or as fine as the limit allows. The limit is then rounded down
// and the amounts up. An amount over the limit becomes one step more than it.
func toSteps(limit decimal, amounts []decimal) (most int64, steps []int64, scale int) {
	scale = limit.scale
	for _, a := range amounts {
		scale = max(scale, a.scale)
	}
	for scale > 0 && limit.steps(scale, false).Cmp(big.NewInt(mostSteps)) > 0 {
		scale--
	}
	scale = min(scale, 30)
	most = limit.steps(scale, false).Int64()
	for _, a := range amounts {
		n := a.steps(scale, true)
		if n.Cmp(big.NewInt(most)) > 0 {
			n = big.NewInt(most + 1)
		}
		steps = append(steps, n.Int64())
	}
	return most, steps, scale
}

// inUnits prints a number of steps in the unit of the file.
func inUnits(n int64, scale int) json.Number {
	text := strconv.FormatInt(n, 10)
	if scale == 0 {
		return json.Number(text)
	}
	for len(text) <= scale {
		text = "0" + text
	}
	text = strings.TrimRight(text[:len(text)-scale]+"."+text[len(text)-scale:], "0")
	return json.Number(strings.TrimSuffix(text, "."))
}
