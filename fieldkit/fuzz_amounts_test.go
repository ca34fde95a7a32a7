package fieldkit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// amountSeeds are amounts as people write them, and what only looks like one.
var amountSeeds = []string{"1-3/8 in", "34.9 mm", "120 km", "8 lb 4 oz", "4 L", "94", "94.5 USD", "2:30", "1.5 h", "90 min", "NaN", "Inf", "-0", "1e308 kg", "0x10", "1/0",
	"٣ mm", "１ mm", "1,300 g", "", " ", "\x00", "999999999999999999999", "½ in", "−5 km", "5 µm"}

// FuzzParseAmounts holds of every quantity that what is accepted is kept as a text that
// reads back to the same, and what is refused is nothing.
func FuzzParseAmounts(f *testing.F) {
	for _, s := range amountSeeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, first := range []System{Inch, Metric} {
			checkAmount(t, text, first, ParseMass)
			checkAmount(t, text, first, ParseVolume)
			checkAmount(t, text, first, ParseDistance)
			checkAmount(t, text, first, ParseTorque)
			checkAmount(t, text, first, ParsePressure)
		}
		m, err := ParseMinutes(text)
		if err != nil {
			require.Zero(t, m)
		} else {
			again, err := ParseMinutes(m.String())
			require.NoError(t, err)
			require.Equal(t, m, again)
		}
		money, err := ParseMoney(text, "USD")
		if err != nil {
			require.Zero(t, money)
		} else {
			again, err := ParseMoney(money.String(), "USD")
			require.NoError(t, err)
			require.Equal(t, money, again)
		}
	})
}

func checkAmount[Q interface {
	~int64
	String() string
	Both(System) string
}](t *testing.T, text string, first System, parse func(string, System) (Q, error)) {
	q, err := parse(text, first)
	if err != nil {
		require.Zero(t, q)
		return
	}
	_ = q.Both(first)
	again, err := parse(q.String(), first)
	require.NoError(t, err, text)
	require.Equal(t, q, again, text)
}
