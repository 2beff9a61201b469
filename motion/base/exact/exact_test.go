package exact_test

import (
	"encoding/json"
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]string{
		"3": "3", "-1/6": "-1/6", "0.25": "1/4", "1001/24000": "1001/24000", " 2 / 4 ": "1/2",
		"+7": "7", ".5": "1/2", "5.": "5", "1.5/2.5": "3/5", "-0": "0", "007": "7", "10/0010": "1", "010.50": "21/2",
		"123456789012345678": "123456789012345678",
	} {
		r, err := exact.Parse(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, r.String(), text)
	}
}

func TestParseRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"": "is not a number", "-": "is not a number", ".": "is not a number", "1.2.3": "is not a number",
		"1e3": "is not a number", "0x10": "is not a number", "1_000": "is not a number", "NaN": "is not a number",
		"Inf": "is not a number", "--1": "is not a number", "+-1": "is not a number", "1/-2": "is not a number",
		"1/2/3": "is not a number", "1/": "is not a number", "/2": "is not a number", "1 2": "is not a number",
		"1/0": "divides by zero", "1/0.0": "divides by zero", "٣": "is not a number",
		"1234567890123456789":     "more than 18 digits",
		"1/0.1234567890123456789": "more than 18 digits",
	} {
		_, err := exact.Parse(text)
		assert.ErrorContains(t, err, says, text)
	}
}

func TestZeroValueIsZero(t *testing.T) {
	var zero exact.Rat
	one := exact.Int(1)
	assert.Equal(t, "0", zero.String())
	assert.Equal(t, 0, zero.Sign())
	assert.True(t, zero.Equal(exact.New(0, 5)) && zero.Less(one) && zero.IsInt())
	assert.Equal(t, "1", zero.Add(one).String())
	assert.Equal(t, "-1", zero.Sub(one).String())
	assert.Equal(t, "0", zero.Mul(one).String())
	assert.Equal(t, int64(0), zero.Whole())
	assert.Equal(t, "1", zero.Den().String())
	assert.Zero(t, zero.Float())
}

func TestRounding(t *testing.T) {
	for _, c := range []struct {
		n, d               int64
		floor, ceil, round int64
	}{
		{7, 2, 3, 4, 4}, {-7, 2, -4, -3, -3}, {1, 3, 0, 1, 0}, {2, 3, 0, 1, 1},
		{-1, 3, -1, 0, 0}, {-2, 3, -1, 0, -1}, {6, 2, 3, 3, 3}, {-6, 2, -3, -3, -3}, {0, 1, 0, 0, 0},
	} {
		r := exact.New(c.n, c.d)
		assert.Equal(t, c.floor, r.Floor().Whole(), "floor of %s", r)
		assert.Equal(t, c.ceil, r.Ceil().Whole(), "ceil of %s", r)
		assert.Equal(t, c.round, r.Round().Whole(), "round of %s", r)
	}
}

func TestDecimal(t *testing.T) {
	for _, c := range []struct {
		r      exact.Rat
		places int
		want   string
	}{
		{exact.New(24000, 1001), 3, "23.976"}, {exact.New(30000, 1001), 3, "29.97"},
		{exact.New(1, 2), 0, "1"}, {exact.New(-1, 1000), 2, "0"}, {exact.Int(100), 3, "100"},
		{exact.Int(100), 0, "100"}, {exact.New(-5, 2), 3, "-2.5"}, {exact.New(2, 3), 4, "0.6667"},
	} {
		assert.Equal(t, c.want, c.r.Decimal(c.places))
	}
}

func TestInt64(t *testing.T) {
	_, ok := exact.New(1, 2).Int64()
	assert.False(t, ok)
	_, ok = exact.Int(math.MaxInt64).Add(exact.Int(1)).Int64()
	assert.False(t, ok)
	n, ok := exact.Int(math.MinInt64).Int64()
	assert.True(t, ok && n == math.MinInt64)
}

func TestCallersMistakesPanic(t *testing.T) {
	for name, f := range map[string]func(){
		"zero denominator":  func() { exact.New(1, 0) },
		"quotient by zero":  func() { exact.Int(1).Quo(exact.Rat{}) },
		"inverse of zero":   func() { exact.Rat{}.Inv() },
		"float NaN":         func() { exact.FromFloat(math.NaN()) },
		"float infinite":    func() { exact.FromFloat(math.Inf(-1)) },
		"whole of a half":   func() { exact.New(1, 2).Whole() },
		"nearest to NaN":    func() { exact.Approx(math.NaN(), 10) },
		"nearest to Inf":    func() { exact.Approx(math.Inf(1), 10) },
		"no denominator":    func() { exact.Approx(0.5, 0) },
		"no room in 64 bit": func() { exact.Int(math.MaxInt64).Add(exact.Int(1)).Whole() },
	} {
		assert.Panics(t, f, name)
	}
}

func TestText(t *testing.T) {
	type holder struct{ Rate exact.Rat }
	text, err := json.Marshal(holder{exact.New(24000, 1001)})
	require.NoError(t, err)
	assert.JSONEq(t, `{"Rate":"24000/1001"}`, string(text))
	var back holder
	require.NoError(t, json.Unmarshal(text, &back))
	assert.True(t, back.Rate.Equal(exact.New(24000, 1001)))
	assert.ErrorContains(t, json.Unmarshal([]byte(`{"Rate":"x"}`), &back), "is not a number")
	assert.True(t, back.Rate.Equal(exact.New(24000, 1001)), "an error changes nothing")
}

func TestValuesAreNotShared(t *testing.T) {
	a := exact.New(3, 4)
	a.Num().SetInt64(99)
	a.Den().SetInt64(99)
	_ = a.Add(a).Mul(a).Neg().Abs()
	assert.Equal(t, "3/4", a.String())
}

func TestApproxOfPi(t *testing.T) {
	// The convergents of pi, 3, 22/7, 333/106, 355/113: G. H. Hardy and
	// E. M. Wright, An Introduction to the Theory of Numbers, 6th ed., Oxford
	// 2008, chapter X, ISBN 978-0-19-921986-5. 311/99 is the best between, a
	// semiconvergent.
	for limit, want := range map[int64]string{1: "3", 7: "22/7", 100: "311/99", 106: "333/106", 113: "355/113", 16000: "355/113"} {
		assert.Equal(t, want, exact.Approx(math.Pi, limit).String(), "%d", limit)
	}
}

func drawRat(t *rapid.T, name string) exact.Rat {
	return exact.New(rapid.Int64Range(-1e6, 1e6).Draw(t, name), rapid.Int64Range(1, 1e6).Draw(t, "under "+name))
}

// No fraction with a small denominator is nearer than Approx's: searched whole.
func TestApproxAgainstSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-50, 50).Draw(t, "f")
		limit := rapid.Int64Range(1, 60).Draw(t, "limit")
		got := exact.Approx(f, limit)
		require.LessOrEqual(t, got.Den().Int64(), limit)
		target := exact.FromFloat(f)
		off := got.Sub(target).Abs()
		for d := int64(1); d <= limit; d++ {
			other := target.Mul(exact.Int(d)).Round().Quo(exact.Int(d))
			require.False(t, other.Sub(target).Abs().Less(off), "%s is nearer than %s", other, got)
		}
	})
}

func TestField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawRat(t, "a"), drawRat(t, "b"), drawRat(t, "c")
		assert.True(t, a.Add(b).Sub(b).Equal(a))
		assert.True(t, a.Mul(b.Add(c)).Equal(a.Mul(b).Add(a.Mul(c))))
		assert.True(t, a.Add(a.Neg()).Sign() == 0)
		assert.Equal(t, a.Cmp(b), a.Sub(b).Sign())
		if b.Sign() != 0 {
			assert.True(t, a.Quo(b).Mul(b).Equal(a))
			assert.True(t, b.Mul(b.Inv()).Equal(exact.Int(1)))
		}
		assert.True(t, a.Abs().Sign() >= 0 && a.Abs().Equal(a.Neg().Abs()))
	})
}

// wide draws numbers at the edges of a word too, where what is short becomes long.
func wide(t *rapid.T, name string) (exact.Rat, *big.Rat) {
	edges := []int64{0, 1, 2, 3, 6, 1001, 24000, 1 << 31, 1<<31 - 1, 1 << 53, 1<<53 + 1, 3037000500, math.MaxInt64, math.MaxInt64 - 1}
	word := rapid.OneOf(rapid.SampledFrom(edges), rapid.Int64Range(0, 1e6), rapid.Int64Range(0, math.MaxInt64))
	n, d := word.Draw(t, name), max(word.Draw(t, "under "+name), 1)
	if rapid.Bool().Draw(t, "below 0") {
		n = -n - rapid.Int64Range(0, 1).Draw(t, "by one more")
	}
	return exact.New(n, d), big.NewRat(n, d)
}

// Every operation is that of math/big, whatever fits into words: and what is equal has one
// form.
func TestAgainstTheStandardLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, x := wide(t, "a")
		b, y := wide(t, "b")
		same := func(want *big.Rat, got exact.Rat, what string) {
			require.Equal(t, want.RatString(), got.String(), "%s of %s and %s", what, x, y)
			require.Equal(t, got, got.Add(a).Sub(a), "%s of %s and %s", what, x, y)
			nearest, _ := want.Float64()
			require.Equal(t, nearest, got.Float(), "%s of %s and %s", what, x, y)
			require.Equal(t, want.Sign(), got.Sign())
			require.Equal(t, want.IsInt(), got.IsInt())
		}
		same(new(big.Rat).Add(x, y), a.Add(b), "sum")
		same(new(big.Rat).Sub(x, y), a.Sub(b), "difference")
		same(new(big.Rat).Mul(x, y), a.Mul(b), "product")
		same(new(big.Rat).Neg(x), a.Neg(), "negative")
		same(new(big.Rat).Abs(x), a.Abs(), "size")
		if y.Sign() != 0 {
			same(new(big.Rat).Quo(x, y), a.Quo(b), "quotient")
			same(new(big.Rat).Inv(y), b.Inv(), "inverse")
		}
		require.Equal(t, x.Cmp(y), a.Cmp(b), "%s against %s", x, y)
		floor := new(big.Int).Div(x.Num(), x.Denom()) // Euclid's, which is the floor above 0
		same(new(big.Rat).SetInt(floor), a.Floor(), "floor")
		whole, ok := a.Int64()
		require.Equal(t, x.IsInt() && x.Num().IsInt64(), ok)
		if ok {
			require.Equal(t, x.Num().Int64(), whole)
		}
	})
}

func BenchmarkFrameTime(b *testing.B) {
	rate, turn := exact.New(24000, 1001), exact.New(360*1000, 12347)
	for b.Loop() {
		_ = exact.Int(1439).Quo(rate).Mul(turn)
	}
}

func TestParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawRat(t, "a")
		frac := a.Frac()
		assert.True(t, frac.Sign() >= 0 && frac.Less(exact.Int(1)))
		assert.True(t, a.Floor().Add(frac).Equal(a))
		assert.True(t, a.Ceil().Sub(a).Less(exact.Int(1)) && !a.Ceil().Less(a))
		assert.False(t, exact.New(1, 2).Less(a.Round().Sub(a).Abs()))
		ratio := new(big.Rat).SetFrac(a.Num(), a.Den())
		f, _ := ratio.Float64()
		assert.Equal(t, f, a.Float())
		back, err := exact.Parse(a.String())
		require.NoError(t, err)
		assert.True(t, back.Equal(a))
	})
}

func TestFloatsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64().Draw(t, "f")
		if math.IsInf(f, 0) || math.IsNaN(f) {
			t.Skip("not finite")
		}
		assert.Equal(t, f, exact.FromFloat(f).Float())
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"3", "-1/6", "0.25", "1001/24000", "1/0", "", ".", "1e9"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := exact.Parse(s)
		if err != nil {
			return
		}
		require.False(t, strings.ContainsAny(s, "eExXpP_"), "%q was read", s)
		num, den, fraction := strings.Cut(s, "/")
		want, ok := new(big.Rat).SetString(strings.TrimSpace(num))
		require.True(t, ok, "%q was read", s)
		if fraction { // apart, because big.Rat takes "1/010" for octal
			under, ok := new(big.Rat).SetString(strings.TrimSpace(den))
			require.True(t, ok, "%q was read", s)
			want.Quo(want, under)
		}
		require.Equal(t, want.RatString(), r.String())
	})
}
