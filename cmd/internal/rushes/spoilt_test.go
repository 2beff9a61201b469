package rushes_test

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// spoiling is what befalls frames after they were seen: one render serves many takes.
type spoiling struct {
	grain   float64 // standard deviation, of 255
	flicker float64 // share by which brightness goes up and down as it is encoded
	beat    float64 // how often it does so in a frame
	step    float64 // from the frame stepAt on it is so many times as bright
	stepAt  int
	lost    []int // frames that are not recorded
	twice   []int // frames that are recorded twice, in place of the next
}

// spoilt is a rendered take as a worse camera has it.
func (b spoiling) spoilt(t *testing.T, film string) string {
	t.Helper()
	data, err := os.ReadFile(film)
	require.NoError(t, err)
	head, frames := data[:bytes.IndexByte(data, '\n')+1], split(data)
	out := filepath.Join(t.TempDir(), filepath.Base(film))
	f, err := os.Create(out)
	require.NoError(t, err)
	w := bufio.NewWriter(f)
	_, _ = w.Write(head)
	chance := rand.New(rand.NewPCG(20, 7))
	last, pix := -1, []byte(nil)
	for _, n := range b.order(len(frames)) {
		if n != last { // what is recorded twice has its grain twice
			last, pix = n, b.frame(frames[n], n, chance)
		}
		fmt.Fprint(w, "FRAME\n")
		_, _ = w.Write(pix)
	}
	require.NoError(t, w.Flush())
	require.NoError(t, f.Close())
	return out
}

// split are the frames of a take as render.mjs writes it.
func split(film []byte) (out [][]byte) {
	const mark = len("FRAME\n")
	for at := bytes.IndexByte(film, '\n') + 1; at < len(film); at += mark + wide*high {
		out = append(out, film[at+mark:at+mark+wide*high])
	}
	return out
}

// order is which frames are recorded.
func (b spoiling) order(frames int) (out []int) {
	gone := map[int]int{} // frames, and what is recorded in their place
	for _, n := range b.lost {
		gone[n] = -1
	}
	for _, n := range b.twice {
		gone[n+1] = n
	}
	for n := range frames {
		if instead, is := gone[n]; !is {
			out = append(out, n)
		} else if instead >= 0 {
			out = append(out, instead)
		}
	}
	return out
}

func (b spoiling) frame(pix []byte, n int, chance *rand.Rand) []byte {
	times := 1 + b.flicker*math.Sin(2*math.Pi*b.beat*float64(n))
	if b.step > 0 && n >= b.stepAt {
		times *= b.step
	}
	out := make([]byte, len(pix))
	for i, v := range pix {
		out[i] = byte(math.Round(min(max(times*float64(v)+b.grain*chance.NormFloat64(), 0), 255)))
	}
	return out
}
