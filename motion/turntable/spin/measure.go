package spin

import (
	"errors"
	"fmt"
	"math"

	"seamrail/motion/base/exact"
)

// Measured is a period found from readings.
type Measured struct {
	Period exact.Rat // s a turn, to a picosecond
	Sigma  exact.Rat // its standard uncertainty, s, to a picosecond
	// Assumed is the standard uncertainty that the readings' own assumptions
	// give, in s, before their scatter was looked at.
	Assumed float64
	// Ratio is how much further the readings lie from the period than was assumed
	// (R. T. Birge, Physical Review 40:207-227, 1932,
	// DOI 10.1103/PhysRev.40.207): the root of the weighted sum of squares over
	// the degrees of freedom. 0 for one reading. Sigma is Assumed times Ratio
	// where that is above 1.
	Ratio    float64
	Readings []Reading
	Late     []float64 // of each reading, s beyond Turns*Period
}

// maxReadings is more than anyone's patience.
const maxReadings = 200

// picosecond is what a measured period is rounded to: a thousandth of a millionth
// of what the best of readings knows, and short enough to compute with.
var picosecond = exact.New(1, 1_000_000_000_000)

// Measure fits a period to readings by weighted least squares through the
// origin, since no turns take no time: P = sum(n t/v) / sum(n n/v), with n turns
// in t seconds of variance v; its own variance is 1/sum(n n/v) (Birge, as
// above). The sums are exact. Where the readings scatter by more than was
// assumed, the uncertainty grows with them; where by less, it does not shrink,
// since a few readings agree by chance. It returns an error where there is no
// reading, or too many.
func Measure(readings []Reading) (Measured, error) {
	switch {
	case len(readings) == 0:
		return Measured{}, errors.New("a period needs at least one reading, such as \"20 turns in 412.3 s\"")
	case len(readings) > maxReadings:
		return Measured{}, fmt.Errorf("%d readings are too many; %d will do", len(readings), maxReadings)
	}
	var nt, nn exact.Rat
	for _, r := range readings {
		weighted := r.Turns.Quo(r.Variance)
		nt = nt.Add(weighted.Mul(r.Seconds))
		nn = nn.Add(weighted.Mul(r.Turns))
	}
	m := Measured{Period: rounded(nt.Quo(nn)), Readings: readings, Assumed: math.Sqrt(1 / nn.Float())}
	m.scatter(nt.Quo(nn))
	m.Sigma = rounded(exact.FromFloat(m.Assumed * max(1, m.Ratio)))
	return m, nil
}

// scatter fills in how the readings lie about the period.
func (m *Measured) scatter(period exact.Rat) {
	sum := 0.0
	for _, r := range m.Readings {
		late := r.Seconds.Sub(r.Turns.Mul(period)).Float()
		m.Late = append(m.Late, late)
		sum += late * late / r.Variance.Float()
	}
	if free := len(m.Readings) - 1; free > 0 {
		m.Ratio = math.Sqrt(sum / float64(free))
	}
}

func rounded(r exact.Rat) exact.Rat { return r.Quo(picosecond).Round().Mul(picosecond) }

// Speed returns the period as a speed of a stand.
func (m Measured) Speed(name string) Speed { return Speed{name, m.Period, m.Sigma} }

// Needed is how many turns to time, in one reading, so that a closing error is
// known to the bound.
type Needed struct {
	Turns   int64
	Seconds float64 // how long that takes
}

// maxNeeded stands for never.
const maxNeeded = 1e9

// TurnsToTime returns how many turns must be timed in one reading of a standard
// uncertainty of sigma seconds, so that Coverage standard uncertainties of the
// seam's error are within its bound. Since n turns give the period to sigma/n,
// n = Coverage sigma Turns / (Period Bound). False means a thousand million or
// more.
func (s Seam) TurnsToTime(sigma float64) (Needed, bool) {
	n := math.Ceil(Coverage * sigma * s.Turns.Float() / (s.Speed.Period.Float() * s.Bound.Float()))
	if !(n < maxNeeded) {
		return Needed{}, false
	}
	n = max(1, n)
	return Needed{int64(n), n * s.Speed.Period.Float()}, true
}

// ByStopwatch returns the standard uncertainty of a reading by stopwatch, in s.
func (a Assume) ByStopwatch() float64 {
	press := a.Reaction
	if press.Sign() == 0 {
		press = Reaction
	}
	return math.Sqrt2 * press.Float()
}

// ByPicture returns the standard uncertainty of a reading by frames, in s; +Inf
// without a camera.
func (a Assume) ByPicture() float64 { return 1 / (math.Sqrt(6) * a.Capture.Float()) }
