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

	gain     float64 // how many times as bright everything is as it is encoded; 0 is 1
	contrast float64 // what is left of the contrast about middle gray; 0 is all
	sky      float64 // the share of the picture, from above, that is white
	black    [2]int  // from which frame to which nothing was exposed; none where both are 0
	held     bool    // the first frame is seen all along
	cut      int     // from which frame on it is another film, after; none where it is 0
	after    string
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
	if b.cut > 0 {
		other, err := os.ReadFile(b.after)
		require.NoError(t, err)
		copy(frames[b.cut:], split(other))
	}
	for _, n := range b.order(len(frames)) {
		if n != last { // what is recorded twice has its grain twice
			seen := frames[n]
			if b.held {
				seen = frames[0]
			}
			last, pix = n, b.frame(seen, n, chance)
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
	if b.black != [2]int{} && n >= b.black[0] && n <= b.black[1] {
		times = 0
	}
	if b.gain > 0 {
		times *= b.gain
	}
	out := make([]byte, len(pix))
	for i, v := range pix {
		seen := float64(v)
		if b.contrast > 0 {
			seen = 128 + b.contrast*(seen-128)
		}
		if float64(i) < b.sky*float64(len(pix)) {
			seen = 255
		}
		out[i] = byte(math.Round(min(max(times*seen+b.grain*chance.NormFloat64(), 0), 255)))
	}
	return out
}
