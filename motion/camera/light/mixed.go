package light

import (
	"math"

	"seamrail/motion/base/root"
)

// Part is what one lamp gives of the light on a surface.
type Part struct{ Lux, Kelvin float64 }

// Mixed returns the correlated colour temperature of light of several colour
// temperatures: tristimulus values add up (CIE 15:2018, DOI 10.25039/TR.015.2018), and
// the nearest to their sum of the full radiators in u, v of 1960 is looked for between
// the warmest part and the coldest. There must be light. What is outside 1000 to
// 15 000 K counts as its end there.
func Mixed(parts []Part) float64 {
	warm, cold := math.Inf(1), math.Inf(-1)
	var x, y, z float64
	for _, p := range parts {
		if p.Lux <= 0 {
			continue
		}
		warm, cold = math.Min(warm, p.Kelvin), math.Max(cold, p.Kelvin)
		u, v := radiator(p.Kelvin)
		y += p.Lux
		x += p.Lux * 3 * u / (2 * v)
		z += p.Lux * (4 - u - 10*v) / (2 * v)
	}
	if warm == cold {
		return warm
	}
	all := x + 15*y + 3*z
	return 1e6 / nearestMired(4*x/all, 6*y/all, Mired(cold), Mired(warm))
}

// nearestMired is where the full radiators come nearest to u, v, between lo and hi, to a
// thousandth of a mired.
func nearestMired(u, v, lo, hi float64) float64 {
	off := func(mired float64) float64 {
		a, b := radiator(1e6 / mired)
		return math.Hypot(a-u, b-v)
	}
	return root.Golden(lo, hi, 100, 1e-3, func(mired float64) float64 { return -off(mired) })
}

// radiator is the chromaticity of a full radiator in u, v of 1960 (M. Krystek, Color
// Research and Application 10:38-40, 1985, DOI 10.1002/col.5080100109), good to a
// ten-thousandth.
func radiator(kelvin float64) (u, v float64) {
	t := math.Min(math.Max(kelvin, 1000), 15_000)
	u = (0.860117757 + 1.54118254e-4*t + 1.28641212e-7*t*t) / (1 + 8.42420235e-4*t + 7.08145163e-7*t*t)
	v = (0.317398726 + 4.22806245e-5*t + 4.20481691e-8*t*t) / (1 - 2.89741816e-5*t + 1.61456053e-7*t*t)
	return u, v
}

// The light of a filament goes with its voltage to this power, and its colour temperature
// to that one: the exponents of the IES Lighting Handbook, 10th ed.,
// ISBN 978-0-87995-241-9, from memory, as the handbook is sold. They hold from half the
// voltage, a tenth of the light, up.
const (
	lumensByVoltage = 3.4
	kelvinByVoltage = 0.42
)

// Dimmed returns the colour temperature of a filament of so many kelvin at full, dimmed
// to a level of its light; 0 where it gives none.
func Dimmed(kelvin, level float64) float64 {
	return kelvin * math.Pow(level, kelvinByVoltage/lumensByVoltage)
}
