package likelihood

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// series are published and constructed readings, see testdata/README.md.
type series struct {
	Norris     struct{ X, Y []float64 }
	Cars       struct{ Speed, Dist []float64 }
	FivePoints struct{ X, Y []float64 } `json:"five_points"`
	PadWear    struct {
		Km, Mm   []float64
		Limit    float64 `json:"limit_mm"`
		Expected struct {
			Intercept, Slope, S float64
			Crossing            float64 `json:"point_crossing"`
			At                  []struct {
				X, Fit float64
				SPred  float64    `json:"s_pred"`
				T      float64    `json:"t975"`
				One    [2]float64 `json:"pi95"`
				Mean   [2]float64 `json:"ci95_mean"`
				Past   float64    `json:"p_reading_at_or_past_limit"`
			}
			OneSided float64 `json:"x_one_sided95"`
		}
	} `json:"pad_wear"`
}

func readSeries(t *testing.T) (s series) {
	file, err := os.ReadFile("testdata/regression.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(file, &s))
	return s
}

func line(t *testing.T, x, y []float64) Line {
	l, ok := FitLine(x, y)
	require.True(t, ok)
	return l
}

func near(t *testing.T, want, got float64, what string) {
	t.Helper()
	assert.InEpsilon(t, want, got, 1e-9, what)
}

// meanWithin is the confidence interval of the line itself.
func meanWithin(l Line, p, x float64) (low, high float64) {
	mean, _ := l.Uncertainty(x)
	half := StudentQuantile((1+p)/2, float64(l.Freedom())) * mean
	return l.At(x) - half, l.At(x) + half
}

// L1, L2. NIST Statistical Reference Datasets, Norris, certified values; the
// interval at 500 was computed from them with 60 digits.
func TestLineOfNorris(t *testing.T) {
	s := readSeries(t).Norris
	l := line(t, s.X, s.Y)
	near(t, -0.262323073774029, l.Intercept, "intercept")
	near(t, 1.00211681802045, l.Slope, "slope")
	near(t, 0.884796396144373, l.Spread, "residual sd")
	near(t, 26.6173985294224, l.Spread*l.Spread*float64(l.Freedom()), "SSE")
	atZero, _ := l.Uncertainty(0)
	near(t, 0.232818234301152, atZero, "sd of the intercept")
	near(t, 0.000429796848199937, l.Spread/math.Sqrt(l.sxx), "sd of the slope")
	meanY, total := stat.Mean(s.Y, nil), 0.0
	for _, y := range s.Y {
		total += (y - meanY) * (y - meanY)
	}
	near(t, 0.999993745883712, 1-l.Spread*l.Spread*float64(l.Freedom())/total, "R squared")

	near(t, 500.796085936, l.At(500), "fit at 500")
	low, high, ok := l.Within(0.95, 500)
	require.True(t, ok)
	near(t, 498.971794054, low, "low")
	near(t, 502.620377819, high, "high")
}

// L3, L4. R's cars data: predict.lm at 12 prints 29.60981 (-1.749529, 60.96915);
// coefficients and mean-line limits from printed tutorials, more digits computed.
func TestLineOfCars(t *testing.T) {
	s := readSeries(t).Cars
	l := line(t, s.Speed, s.Dist)
	near(t, -17.5790948905, l.Intercept, "intercept")
	near(t, 3.93240875912, l.Slope, "slope")
	near(t, 15.3795867488, l.Spread, "residual sd")
	low, high, _ := l.Within(0.95, 12)
	assert.InDelta(t, 29.60981, l.At(12), 5e-6)
	assert.InDelta(t, -1.749529, low, 5e-7)
	assert.InDelta(t, 60.96915, high, 5e-6)
	for _, c := range []struct{ x, fit, low, high float64 }{
		{19, 57.1366715328, 25.761756419, 88.5115866467},
		{24, 76.7987153285, 44.7524782696, 108.844952387},
	} {
		low, high, _ := l.Within(0.95, c.x)
		near(t, c.fit, l.At(c.x), "fit")
		near(t, c.low, low, "low")
		near(t, c.high, high, "high")
	}
	for _, c := range []struct{ x, low, high float64 }{
		{12, 24.3951376696, 34.8244827684}, {19, 51.8291331059, 62.4442099598},
	} {
		low, high := meanWithin(l, 0.95, c.x)
		near(t, c.low, low, "mean low")
		near(t, c.high, high, "mean high")
	}
}

// L5. An exercise with five points worked at wizedu.com: one value -4.4960 to
// 4.5217, mean -2.3838 to 2.4094; more digits computed.
func TestLineOfFivePoints(t *testing.T) {
	s := readSeries(t).FivePoints
	l := line(t, s.X, s.Y)
	near(t, -0.897435897436, l.Intercept, "intercept")
	near(t, 0.910256410256, l.Slope, "slope")
	near(t, 1.20007122296, l.Spread, "residual sd")
	low, high, _ := l.Within(0.95, 1)
	near(t, -4.4960121097, low, "low")
	near(t, 4.52165313534, high, "high")
	low, high = meanWithin(l, 0.95, 1)
	near(t, -2.38375443532, low, "mean low")
	near(t, 2.40939546096, high, "mean high")
}

// L6. A constructed series of pad readings, all figures computed with 60 digits.
func TestLineOfPadWear(t *testing.T) {
	s := readSeries(t).PadWear
	l, want := line(t, s.Km, s.Mm), s.Expected
	near(t, want.Intercept, l.Intercept, "intercept")
	near(t, want.Slope, l.Slope, "slope")
	near(t, want.S, l.Spread, "spread")
	x, ok := l.Crossing(s.Limit)
	require.True(t, ok)
	near(t, want.Crossing, x, "crossing")
	for _, at := range want.At {
		_, one := l.Uncertainty(at.X)
		near(t, at.Fit, l.At(at.X), "fit")
		near(t, at.SPred, one, "spread of one reading")
		near(t, at.T, StudentQuantile(0.975, 3), "t")
		low, high, _ := l.Within(0.95, at.X)
		near(t, at.One[0], low, "low")
		near(t, at.One[1], high, "high")
		low, high = meanWithin(l, 0.95, at.X)
		near(t, at.Mean[0], low, "mean low")
		near(t, at.Mean[1], high, "mean high")
		p, ok := l.AtOrBelow(s.Limit, at.X)
		require.True(t, ok)
		assert.InEpsilon(t, at.Past, p, 1e-8, "probability at the limit at %g", at.X)
	}
	p, _ := l.AtOrBelow(s.Limit, 36_000)
	near(t, 0.03592512009, p, "probability at 36 000 km")
	low, _, _ := l.Within(0.9, want.OneSided) // one-sided 95 % is the lower end of 90 %
	near(t, s.Limit, low, "one-sided bound")
}

// What the readings leave open, drawn: σ by its chi-squared law, the line about its own
// reading by the normal law (Bayesian linear regression without prior knowledge, any
// textbook). Its quantiles are those drawn, and over all of them it is Student's t.
func TestHowSureTheLineIs(t *testing.T) {
	s := readSeries(t)
	src := rand.New(rand.NewPCG(3, 4))
	for _, n := range []int{3, 4, 5} {
		l := line(t, s.PadWear.Km[:n], s.PadWear.Mm[:n])
		nu, x := float64(l.Freedom()), 1.3*s.PadWear.Km[n-1]
		mean, one := l.Uncertainty(x)
		for _, away := range []float64{-6, -2, -0.5, 0, 1, 3} {
			limit, where := l.At(x)+away*one, fmt.Sprint(n, " readings, ", away)
			var drawn []float64
			chi := distuv.ChiSquared{K: nu, Src: src}
			for range 20_000 {
				narrow := math.Sqrt(chi.Rand() / nu)
				drawn = append(drawn, normalAtMost((limit-l.At(x))/l.Spread*narrow+mean/l.Spread*src.NormFloat64()))
			}
			slices.Sort(drawn)
			for _, u := range []float64{0.05, 0.5, 0.95} {
				assert.InDelta(t, drawn[int(u*20_000)], l.belowAt(u, limit, x), 0.05, "%s, at %g", where, u)
			}
			sum, last := 0.0, 0.0
			for i := range 1000 {
				p := l.belowAt((float64(i)+0.5)/1000, limit, x)
				assert.GreaterOrEqual(t, p, last, where)
				sum, last = sum+p, p
			}
			past, _ := l.AtOrBelow(limit, x)
			assert.InDelta(t, past, sum/1000, 0.03, where)
		}
	}
	exact := line(t, []float64{0, 10, 20}, []float64{8, 7, 6})
	assert.Zero(t, exact.belowAt(0.95, 3, 40))
	assert.Equal(t, 1.0, exact.belowAt(0.05, 3, 60))
}

// L7. Edges, by definition.
func TestLineEdges(t *testing.T) {
	_, ok := FitLine([]float64{5}, []float64{1})
	assert.False(t, ok, "one reading is no line")
	_, ok = FitLine(nil, nil)
	assert.False(t, ok, "no reading is no line")
	_, ok = FitLine([]float64{5, 5, 5}, []float64{1, 2, 3})
	assert.False(t, ok, "all at one place is no line")

	two := line(t, []float64{0, 10}, []float64{8, 6})
	assert.Equal(t, -0.2, two.Slope)
	_, _, ok = two.Within(0.95, 20)
	assert.False(t, ok, "two readings have no interval")
	_, ok = two.AtOrBelow(3, 20)
	assert.False(t, ok)

	level := line(t, []float64{0, 10, 20}, []float64{8, 8, 8})
	_, ok = level.Crossing(3)
	assert.False(t, ok, "a level line never crosses")

	exact := line(t, []float64{0, 10, 20, 30}, []float64{8.1, 7.1, 6.1, 5.1})
	low, high, ok := exact.Within(0.95, 40)
	assert.True(t, ok)
	assert.Equal(t, low, high, "readings on an exact line give no width")
	assert.InDelta(t, 4.1, low, 1e-12)
	p, _ := exact.AtOrBelow(3, 40)
	assert.Zero(t, p)
	p, _ = exact.AtOrBelow(3, 60)
	assert.Equal(t, 1.0, p)
}

// L8. Any t table; NIST prints 2.024394 for 38.
func TestStudent(t *testing.T) {
	for freedom, want := range map[float64]float64{3: 3.18244630528, 34: 2.03224450932, 38: 2.02439416391, 48: 2.01063475762} {
		near(t, want, StudentQuantile(0.975, freedom), "quantile")
		near(t, want, -StudentQuantile(0.025, freedom), "quantile")
		near(t, 0.975, StudentAtMost(want, freedom), "distribution")
	}
	// gonum, stat/distuv, as the reference library.
	for _, nu := range []float64{1, 2, 3, 5, 17, 200} {
		ref := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: nu}
		for x := -9.0; x <= 9; x += 0.75 {
			near(t, ref.CDF(x), StudentAtMost(x, nu), "distribution")
		}
		for p := 0.01; p < 1; p += 0.07 {
			assert.InDelta(t, ref.Quantile(p), StudentQuantile(p, nu), 1e-8)
		}
	}
	assert.Equal(t, 1.0, StudentAtMost(math.Inf(1), 3))
	assert.Zero(t, StudentAtMost(math.Inf(-1), 3))
	assert.Zero(t, StudentQuantile(0.5, 3))
	near(t, 0.975, normalAtMost(1.959963984540054), "normal") // any table of the normal law
}

// A line against gonum's, on the same readings.
func TestLineBesideGonum(t *testing.T) {
	s := readSeries(t)
	for _, xy := range [][2][]float64{{s.Norris.X, s.Norris.Y}, {s.Cars.Speed, s.Cars.Dist}, {s.PadWear.Km, s.PadWear.Mm}} {
		alpha, beta := stat.LinearRegression(xy[0], xy[1], nil, false)
		l := line(t, xy[0], xy[1])
		near(t, alpha, l.Intercept, "intercept")
		near(t, beta, l.Slope, "slope")
	}
}
