package brightness

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
)

const (
	// mostTones is how many kinds of flicker are told: lamps on one mains make one.
	mostTones = 4
	// falseAlarm is how likely noise alone may show a tone: in a hundred thousand takes one.
	falseAlarm = 1e-5
	// leastCycles is how often a tone must come in the take: what comes less often is a drift.
	leastCycles = 3.0
	// leastTone is an amplitude below which a tone is of no account: a thousandth of a stop,
	// 0.07 % of light, less than the quarter of a level of eight bits.
	leastTone = 0.001
	// around is to how many neighbours on each side of a bin noise is taken from.
	around = 24
	// tuned is to what share of a bin a frequency is searched, and tunedToTake where it is only taken
	// out: over a take that leaves a part in three hundred of it.
	tuned, tunedToTake = 1e-6, 1e-3
	// nyquist is the greatest frequency, in cycles a frame, that frames can show.
	nyquist = 0.5
)

// tone is a steady ripple in a take.
type tone struct {
	frequency  float64 // cycles a frame, to 0.5
	amplitude  float64 // stops, from the middle
	falseAlarm float64 // how likely noise alone makes one as strong
}

// findTones takes the strongest tone out, then the next, until one may be noise. Frequencies are
// searched to a share of a bin.
func findTones(stops []float64, share float64) (out []tone) {
	for len(out) < mostTones {
		rest := fit(stops, out).rest
		t, ok := strongest(rest)
		if !ok {
			break
		}
		t.frequency = tune(rest, t.frequency, share)
		t.amplitude = fit(rest, []tone{t}).tones[0].amplitude
		if t.amplitude < leastTone {
			break
		}
		out = append(out, t)
	}
	return out
}

// strongest is the bin of the periodogram that stands highest over its noise, if noise is
// unlikely to reach as high in any of M bins:
//
//	1 - (1 - p)^M,  p = exp(-z) for noise that is known
//
// with z the power over that of noise (J. D. Scargle, Studies in astronomical time series
// analysis II, Astrophysical Journal 263:835-853, 1982, DOI 10.1086/160554, section II and
// equation 14; see floor for p of noise that is not).
func strongest(rest []float64) (tone, bool) {
	power := periodogram(rest)
	all := newFloor(power[1:])
	best, chance := 0, 1.0
	for k := int(math.Ceil(leastCycles)); k < len(power); k++ {
		near := newFloor(power[max(1, k-around):min(len(power), k+around+1)])
		if near.power < all.power {
			near = all
		}
		if p := near.exceeds(power[k]); p < chance {
			best, chance = k, p
		}
	}
	chance = -math.Expm1(float64(len(power)) * math.Log1p(-chance))
	return tone{frequency: float64(best) / float64(len(rest)), falseAlarm: chance}, best > 0 && chance <= falseAlarm
}

// periodogram is the power of each bin, from none to half the rate, a frame.
func periodogram(rest []float64) []float64 {
	power := make([]float64, len(rest)/2+1)
	for k, v := range fourier.NewFFT(len(rest)).Coefficients(nil, rest) {
		power[k] = (real(v)*real(v) + imag(v)*imag(v)) / float64(len(rest))
	}
	if len(rest)%2 == 0 {
		// The bin at half the rate is one square, where others are two: noise reaches twice as
		// high there, as erfc(sqrt(x)) < exp(-x).
		power[len(power)-1] /= 2
	}
	return power
}

// floor is the power of noise as some bins show it: their median over ln 2, as powers of noise
// are distributed exponentially. Tones do not raise it.
type floor struct {
	power float64
	bins  float64 // of which a mean would be as sure
}

// medianWorth is how many bins of a mean one of a median is worth: (ln 2)^2, from the variance
// of a median, 1/(4 n p^2) with p the density there.
const medianWorth = math.Ln2 * math.Ln2

func newFloor(power []float64) floor {
	m := median(slices.Clone(power)) / math.Ln2
	return floor{max(m, leastTone*leastTone/100), medianWorth * float64(len(power))}
}

// exceeds is how likely noise alone has as much in a bin. As the floor is itself of so many
// bins q, the share z of it is not exponential but
//
//	P(z) = (1 + z/q)^-q
//
// which is the ratio of an exponential to a mean of q of them (a F distribution of 2 and 2q
// degrees).
func (f floor) exceeds(power float64) float64 {
	return math.Exp(-f.bins * math.Log1p(power/f.power/f.bins))
}

// tune is the frequency near one at which a tone leaves least of a series. Within half a bin of
// half the rate a take does not tell sine from cosine, nor one frequency from another: it is
// that half then.
func tune(rest []float64, near, share float64) float64 {
	bin := 1 / float64(len(rest))
	lo, hi := max(leastCycles*bin/2, near-bin), min(nyquist, near+bin)
	left := func(f float64) float64 { return fit(rest, []tone{{frequency: f}}).left }
	best := near
	for k := range 9 { // the least of a few first: there may be more than one
		if f := lo + (hi-lo)*float64(k)/8; left(f) < left(best) {
			best = f
		}
	}
	lo, hi = max(lo, best-bin/4), min(hi, best+bin/4)
	for hi-lo > share*bin {
		third := (hi - lo) / 3
		if left(lo+third) < left(hi-third) {
			hi -= third
		} else {
			lo += third
		}
	}
	if f := (lo + hi) / 2; f < nyquist-bin/2 {
		return f
	}
	return nyquist
}
