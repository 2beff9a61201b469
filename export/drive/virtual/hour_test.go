package virtual_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
)

// rounds writes lines of a cosine loop of 200 mm and 4 s for ever.
type rounds struct {
	segments, next int
	line           []byte
}

func (r *rounds) take() []byte {
	r.next++
	dt := 4.0 / float64(r.segments)
	at := func(i int) float64 { return 100 * (1 - math.Cos(2*math.Pi*float64(i)/float64(r.segments))) }
	d := math.Abs(at(r.next) - at(r.next-1))
	r.line = fmt.Appendf(r.line[:0], "G1X%.3fF%.2f\n", at(r.next), math.Max(d/dt*60, 1))
	return r.line
}

// keepFed keeps a board fed for so many seconds, counting characters, and
// returns it.
func keepFed(t testing.TB, seconds float64, segments int) *virtual.Rig {
	o := bench()
	o.Baud, o.LineSeconds, o.Forget = 115200, 300e-6, true
	r := virtual.New(o)
	w := virtual.NewWorld(r)
	lines := &rounds{segments: segments}
	var pending []int
	out, oks := 0, 0
	line := []byte("G4P0.3\n") // G94 and G90 it starts with
	for r.Now().Seconds() < seconds {
		for out+len(line) <= 127 {
			_, err := w.Write(line)
			require.NoError(t, err)
			pending = append(pending, len(line))
			out += len(line)
			line = lines.take()
		}
		for _, b := range w.Wait(virtual.Epoch.Add(longest)).Bytes {
			if b == 'o' {
				oks++
			}
			if b == '\n' {
				out -= pending[0]
				pending = pending[1:]
			}
		}
	}
	return r
}

// A loop of 20 ms blocks streams at 115200 baud without ever running dry.
func TestLoopsStreamWithoutUnderrun(t *testing.T) {
	s := keepFed(t, 120, 200).Stats()
	assert.Zero(t, s.Underruns)
	assert.Zero(t, s.Lost)
	assert.Zero(t, s.Errors)
	assert.EqualValues(t, 1, s.Starts)
	// A round lasts 4.0778 s: testdata/reference/firmware_passes.tsv.
	assert.InDelta(t, (120-0.3)/4.0778*200+15, s.Blocks, 10)
	assert.Equal(t, 15, s.Queue)
}

func BenchmarkHourOfLoops(b *testing.B) {
	for b.Loop() {
		keepFed(b, 3600, 200)
	}
}
