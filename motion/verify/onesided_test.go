package verify

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestWindowsOfTheSeam: seven places a window, evenly from the seam on; the first window
// is half a frame wide and each next one half as wide, and behind the 18th is one more
// to compare it with. A wider one would look past what changes beside the seam.
func TestWindowsOfTheSeam(t *testing.T) {
	const frame = 1.0 / 24
	var at []float64
	derivative(func(sec float64) float64 { at = append(at, sec); return 0 }, frame, 1, 0, 1)
	require.Len(t, at, 7*19)
	for j := range 19 {
		width := frame / math.Pow(2, float64(j+1))
		for k := range 7 {
			assert.InDelta(t, float64(k)/6*width, at[7*j+k], 1e-12*width, "place %d of window %d", k, j)
		}
	}
}

// TestWhichWindowIsBelieved, of a frame of 1 s, so that windows are 1/2, 1/4, 1/8 ... s
// wide. Rounding wants a wide one, a jump of the next derivative a narrow one.
func TestWhichWindowIsBelieved(t *testing.T) {
	still := func(float64) float64 { return 0 }
	// Where something is 5 mm off from one place to another, and nowhere else.
	off := func(from, to float64) side {
		return func(sec float64) float64 {
			if sec > from && sec < to {
				return 5
			}
			return 0
		}
	}
	// Rounding of 1 mm by the sizes of the weights of a first and a second derivative.
	rounding := func(width float64, d int) float64 {
		sizes := [3]float64{1, 27 + 11.0/15, 102 + 2.0/45}[d]
		return 4 * 2.3e-16 * sizes / math.Pow(width/6, float64(d))
	}
	for _, x := range []struct {
		what         string
		x            side
		size, higher float64
		d            int
		err          float64
	}{
		{"a place is as rounded in any window", still, 1, 0, 0, rounding(1, 0)},
		{"without a next derivative the widest", still, 1, 0, 1, rounding(0.5, 1)},
		{"and twice the size is twice as rough", still, 2, 0, 2, 2 * rounding(0.5, 2)},
		{"without rounding the narrowest", still, 0, 1, 2, 1.0 / 262144},
		{"and twice the jump hides twice as much", still, 0, 2, 1, 2.0 / 262144},
		{"one beyond 0.1 s leaves the windows up to 1/16 s, of which the widest stands beside one that differs", off(0.1, 9), 1, 0, 1, rounding(1.0/32, 1)},
		// The places of a window of 1/16 s are 10.4 ms apart, of 1/32 s 5.2 ms and of
		// 1/64 s 2.6 ms: only from the last on is one within 3 ms, and the one before
		// stands beside it.
		{"one within 3 ms is not looked past", off(0, 0.003), 0, 1, 1, 1.0 / 16},
	} {
		got := derivative(x.x, 1, x.size, x.higher, x.d)
		assert.Zero(t, got.value, x.what)
		assert.InEpsilon(t, x.err, got.err, 1e-9, x.what)
	}
}

// TestBothCount: what a jump hides and what rounding adds, together. A speed at 1 mm with
// an acceleration of 1e-9 mm/s2 is in doubt by 1e-9 w + 1.53e-13/w in a window of w s:
// in 1e-12 mm/s by 31 + 5 at 1/32 s, 16 + 10 at 1/64 s and 8 + 20 at 1/128 s.
func TestBothCount(t *testing.T) {
	got := derivative(func(float64) float64 { return 0 }, 1, 1, 1e-9, 1)
	assert.InEpsilon(t, 1e-9/64+4*2.3e-16*(27+11.0/15)*6*64, got.err, 1e-9)
}

// TestWhatDiffersIsDoubt: of the seventh power of time the weights of a first derivative
// leave out the seventh difference, 7!/7 = 720 h^6, which is nothing at the seam itself
// and 64 times as much in the window that is twice as wide.
func TestWhatDiffersIsDoubt(t *testing.T) {
	h := 1.0 / 12 / (1 << 17)
	got := derivative(func(sec float64) float64 { return math.Pow(sec, 7) }, 1, 0, 0, 1)
	assert.InEpsilon(t, -720*math.Pow(h, 6), got.value, 1e-6)
	assert.InEpsilon(t, 63*720*math.Pow(h, 6), got.err, 1e-6)
}

// TestASeamIsToldByBothSides: 60 mm in 2 s at up to 30 pi mm/s are rounded as 60 pi mm
// are, on either side of the seam; beside that a billionth of the way counts.
func TestASeamIsToldByBothSides(t *testing.T) {
	p := measure(context.Background(), sound(), 0)
	assert.InEpsilon(t, 60e-9+2*4*2.3e-16*2*p.speed, soundPromise()[0], 1e-9)
	assert.InDelta(t, 30*math.Pi, p.speed, 1e-3)
	// Of speed it is a millionth, and each side is in doubt by no less than rounding in
	// the widest window, half a frame of 1/24 s, makes.
	w := 4 * 2.3e-16 * 2 * p.speed * (27 + 11.0/15) * 6 * 48
	assert.GreaterOrEqual(t, soundPromise()[1], 1e-6*p.speed+2*w)
	// A jump of the acceleration from the greatest one way to the greatest the other
	// way hides a speed of 2 a w in a window of w s, on either side.
	least := math.Inf(1)
	for j := range 18 {
		width := 1.0 / 48 / math.Pow(2, float64(j))
		least = math.Min(least, 2*p.acc*width+4*2.3e-16*2*p.speed*(27+11.0/15)*6/width)
	}
	assert.InEpsilon(t, 1e-6*p.speed+2*least, soundPromise()[1], 1e-2)
}
