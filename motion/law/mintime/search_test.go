package mintime

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawLeg draws legs of any size, and often one on a border between two kinds.
func drawLeg(t *rapid.T) Leg {
	log := func(what string, low, high float64) float64 {
		return math.Pow(10, rapid.Float64Range(low, high).Draw(t, what))
	}
	l := Leg{Speed: log("log speed", -3, 4)}
	l.Acc = l.Speed * log("log acc per speed", -2, 3)
	l.Jerk = l.Acc * l.Acc / l.Speed * log("log jerk per acc2/speed", -3, 4)
	if rapid.IntRange(0, 9).Draw(t, "no limit of jerk") == 0 {
		l.Jerk = math.Inf(1)
	}
	l.Start, l.End = drawSpeed(t, "start", l.Speed), drawSpeed(t, "end", l.Speed)
	half, direct := l.direct()
	switch rapid.IntRange(0, 4).Draw(t, "distance") {
	case 0:
		l.Distance = 0
	case 1: // near D*
		off := log("log off", -11, 0) * (math.Abs(l.Start) + math.Abs(l.End)) * half.value()
		l.Distance = direct.value() + sign(t)*off
	case 2: // near a border of the hop
		var h hop
		h.set(&l)
		e := rapid.SampledFrom([]float64{h.e1, h.e2, h.ev}).Draw(t, "border") * rapid.Float64Range(0.9, 1.1).Draw(t, "near")
		l.Distance = direct.value() + h.distance(e)*h.speed*h.time
	case 3:
		l.Distance = sign(t) * l.Speed * l.Speed / l.Acc * log("log distance", -4, 4)
	default:
		l.Distance = sign(t) * l.Speed * (2*half.value() + l.Speed/l.Acc) * rapid.Float64Range(1e-9, 3).Draw(t, "share")
	}
	return l
}

func drawSpeed(t *rapid.T, what string, limit float64) float64 {
	switch rapid.IntRange(0, 4).Draw(t, what+" kind") {
	case 0:
		return 0
	case 1:
		return sign(t) * limit
	case 2:
		return sign(t) * limit * math.Pow(10, rapid.Float64Range(-8, 0).Draw(t, what+" log"))
	}
	return limit * float64(rapid.IntRange(-999, 999).Draw(t, what)) / 1000
}

func sign(t *rapid.T) float64 {
	if rapid.Bool().Draw(t, "back") {
		return -1
	}
	return 1
}

// TestExactly compares with the search in 60 digits, and expects every digit but
// the last few.
func TestExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { checkExactly(t, drawLeg(t)) })
}

// TestRoundNumbers does the same with what a person would type, which is often
// just on a border.
func TestRoundNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(what string, from ...float64) float64 { return rapid.SampledFrom(from).Draw(t, what) }
		speeds := []float64{-100, -60, -50, -20, 0, 20, 50, 60, 100}
		checkExactly(t, Leg{
			Distance: pick("distance", -240, -100, -20, -15, -10, -5, -1, 0, 1, 5, 7.5, 10, 15, 20, 30, 100, 240),
			Start:    pick("start", speeds...), End: pick("end", speeds...),
			Speed: pick("speed", 100, 120, 200), Acc: pick("acc", 100, 250, 500, 1000), Jerk: pick("jerk", 500, 5000, 1e4, 1e5),
		})
	})
}

func checkExactly(t *rapid.T, l Leg) {
	m, err := l.Fastest()
	require.NoError(t, err, "%+v", l)
	best := l.quickestExactly()
	want := rounded(best.sec)
	half, covered := l.direct()
	short := math.Abs(covered.from(l.Distance)) <= directSlack*math.Abs(covered.head)
	if short && l.Start*l.End >= 0 && m.Duration() < want {
		require.InDelta(t, 2*half.value(), m.Duration(), sameTime*want, "%+v", l)
		return
	}
	require.InDelta(t, want, m.Duration(), sameTime*want, "%+v", l)
	if math.IsInf(l.Jerk, 1) {
		return
	}
	for _, share := range []float64{0.25, 0.5, 0.75} {
		pos, _, _, _ := m.At(want * share)
		require.InDelta(t, best.at(l, share), pos, samePart*l.Speed*want, "%+v", l)
	}
}

// samePart is the share of the way at full speed by which a position may differ:
// 1e-9 mm in ten metres.
const samePart = 1e-13
