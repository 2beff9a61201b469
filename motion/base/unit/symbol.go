package unit

import (
	"errors"
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
)

// symbol is what a unit's name stands for: factor turns a number of it into
// the unit of dim.
type symbol struct {
	dim    Dimension
	factor exact.Rat
}

// perTurn is exact, which is why angles are in degrees.
var perTurn = exact.Int(360)

// bases are the units that can stand before a stroke, and alone. The inch is
// 25.4 mm and the foot 304.8 mm exactly (international yard and pound
// agreement, 1959: US Federal Register, 24 FR 5348).
var bases = map[string]symbol{
	"um": {Length, exact.New(1, 1000)}, "µm": {Length, exact.New(1, 1000)}, "μm": {Length, exact.New(1, 1000)}, // of pixels
	"mm": {Length, exact.Int(1)}, "cm": {Length, exact.Int(10)}, "m": {Length, exact.Int(1000)},
	"in": {Length, exact.New(254, 10)}, "ft": {Length, exact.New(3048, 10)},
	"deg": {Angle, exact.Int(1)}, "degree": {Angle, exact.Int(1)}, "degrees": {Angle, exact.Int(1)},
	"°": {Angle, exact.Int(1)}, "turn": {Turns, exact.Int(1)}, "turns": {Turns, exact.Int(1)},
	"step": {StepRate, exact.Int(1)}, "steps": {StepRate, exact.Int(1)}, "": {StepRate, exact.Int(1)},
}

// alone are the units that no stroke may follow.
var alone = map[string]symbol{
	"":  {Number, exact.Int(1)},
	"%": {Number, exact.New(1, 100)},
	"s": {Time, exact.Int(1)}, "ms": {Time, exact.New(1, 1000)}, "min": {Time, exact.Int(60)},
	"us": {Time, exact.New(1, 1_000_000)}, "µs": {Time, exact.New(1, 1_000_000)}, "μs": {Time, exact.New(1, 1_000_000)}, // of step pulses
	"Hz": {Frequency, exact.Int(1)}, "MHz": {Frequency, exact.Int(1_000_000)}, "lm": {LightFlow, exact.Int(1)}, "lx": {Illuminance, exact.Int(1)}, "K": {Temperature, exact.Int(1)},
	"frame": {Frames, exact.Int(1)}, "frames": {Frames, exact.Int(1)},
	"kg": {Mass, exact.Int(1)}, "g": {Mass, exact.New(1, 1000)}, "N": {Force, exact.Int(1)},
	"Nm": {Torque, exact.Int(1)}, "Ncm": {Torque, exact.New(1, 100)}, "mNm": {Torque, exact.New(1, 1000)},
	"kgmm2": {Inertia, exact.Int(1)}, "kgm2": {Inertia, exact.Int(1_000_000)}, "gcm2": {Inertia, exact.New(1, 10)},
}

// divisors are the times that can stand after a stroke, in seconds.
var divisors = map[string]exact.Rat{"s": exact.Int(1), "min": exact.Int(60)}

// powers are the endings that square or cube a divisor.
var powers = []struct {
	ending string
	power  int
}{{"^2", 2}, {"^3", 3}, {"²", 2}, {"³", 3}, {"2", 2}, {"3", 3}}

// rates[b][p] is the dimension of a base of dimension b over time to the p.
var rates = map[Dimension][4]Dimension{
	Length:   {1: Speed, 2: Acceleration, 3: Jerk},
	Angle:    {1: AngularSpeed, 2: AngularAcceleration, 3: AngularJerk},
	StepRate: {1: StepRate},
}

func lookUp(name string) (symbol, error) {
	name = strings.ReplaceAll(name, " ", "")
	if u, ok := alone[name]; ok {
		return u, nil
	}
	top, under, stroke := strings.Cut(name, "/")
	u, ok := bases[top]
	if !ok || !stroke && u.dim == StepRate {
		return symbol{}, unknown(name)
	}
	if !stroke {
		return u, nil
	}
	return rate(u, name, under)
}

func rate(u symbol, name, under string) (symbol, error) {
	power := 1
	for _, p := range powers {
		if cut, ok := strings.CutSuffix(under, p.ending); ok {
			under, power = cut, p.power
			break
		}
	}
	if u.dim == Turns {
		u = symbol{Angle, u.factor.Mul(perTurn)}
	}
	seconds, ok := divisors[under]
	dim := rates[u.dim][power]
	if !ok || dim == Number {
		return symbol{}, unknown(name)
	}
	for range power {
		u.factor = u.factor.Quo(seconds)
	}
	return symbol{dim, u.factor}, nil
}

// unknown explains a unit that is not one, with the commonest slips by name.
func unknown(name string) error {
	switch {
	case strings.HasPrefix(name, ","):
		return errors.New("has a decimal comma; write a point, such as \"9.5 mm\"")
	case exponent(name):
		return errors.New("has an exponent; write the number out, such as \"1500 mm\"")
	}
	if low := strings.ToLower(name); low != name {
		if _, err := lookUp(low); err == nil {
			return fmt.Errorf("has the unit %q; write %q", name, low)
		}
	}
	for _, capital := range []string{"Hz", "MHz", "K", "N", "Nm"} {
		if strings.EqualFold(name, capital) {
			return fmt.Errorf("has the unit %q; write %q", name, capital)
		}
	}
	return fmt.Errorf("has an unknown unit %s; units are mm, um, cm, m, in, ft, deg, turn, s, ms, min, frames, "+
		"Hz, MHz, lm, lx, K, kg, g, N, N m, kg mm2, and rates such as mm/s, mm/s2 and deg/s", quote(name))
}

func exponent(name string) bool {
	rest := strings.TrimLeft(name, "eE")
	return rest != name && strings.TrimLeft(rest, "+-0123456789") != rest
}
