package virtual_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/spec/rig"
)

var eighty = exact.Int(80)

// bench returns a board of one axis of 80 steps/mm with the timer of an 8-bit
// board, which starts at once and answers at once.
func bench() virtual.Options {
	return virtual.Options{
		Kind:  rig.Buffered,
		Axes:  []virtual.Axis{{Letter: 'X', StepsPerUnit: 80, Acceleration: 500, Speed: 200, Min: 0, Max: 300}},
		Timer: virtual.SixteenMHz, ReceiveBuffer: 128, LineLength: 80, Blocks: 16, JunctionDeviation: 0.01,
		Status: '?', Hold: '!', Resume: '~', Abort: 0x18,
		HomeLine: "$H", UnlockLine: "$X", SettingsLine: "$$",
	}
}

// longest is how long, on the virtual clock, any test lets a board think.
const longest = 2 * time.Hour

// host sends lines as a host does that counts characters.
type host struct {
	t       *testing.T
	rig     *virtual.Rig
	react   time.Duration // from an answer to the next line
	window  int           // bytes that may be unanswered; 0 = one line
	pending []int
	out     int
	heard   bytes.Buffer
	replies []string
}

// stream sends all lines and waits for all answers. It returns the answers
// that are not ok.
func (h *host) stream(lines ...string) []string {
	h.t.Helper()
	before := len(h.replies)
	for len(lines) > 0 || len(h.pending) > 0 {
		lines = h.send(lines)
		h.listen()
	}
	var out []string
	for _, l := range h.replies[before:] {
		if l != "ok" {
			out = append(out, l)
		}
	}
	return out
}

func (h *host) fits(n int) bool {
	return len(h.pending) == 0 || h.out+n <= h.window
}

// send puts as many lines on the wire, all at once, as may be unanswered.
func (h *host) send(lines []string) []string {
	h.t.Helper()
	var all []byte
	for len(lines) > 0 && h.fits(len(lines[0])+1) {
		all = append(append(all, lines[0]...), '\n')
		h.pending = append(h.pending, len(lines[0])+1)
		h.out += len(lines[0]) + 1
		lines = lines[1:]
	}
	n, err := h.rig.Write(all)
	require.NoError(h.t, err)
	require.Len(h.t, all, n)
	return lines
}

// listen waits for the next bytes from the board.
func (h *host) listen() {
	h.t.Helper()
	h.wait()
	h.take()
}

// wait moves the clock to the next byte from the board, and the host's
// reaction after it.
func (h *host) wait() {
	h.t.Helper()
	for {
		at, ok := h.rig.NextReply()
		if ok {
			h.rig.AdvanceTo(at + h.react)
			return
		}
		next, ok := h.rig.Next()
		require.True(h.t, ok && next < longest, "the board never answers")
		h.rig.AdvanceTo(next)
	}
}

func (h *host) take() {
	h.heard.Write(h.rig.Read(nil))
	for {
		line, err := h.heard.ReadString('\n')
		if err != nil {
			h.heard.WriteString(line)
			return
		}
		if line = strings.TrimSpace(line); line != "" {
			h.hear(line)
		}
	}
}

func (h *host) hear(line string) {
	h.replies = append(h.replies, line)
	if (line == "ok" || strings.HasPrefix(line, "error")) && len(h.pending) > 0 {
		h.out -= h.pending[0]
		h.pending = h.pending[1:]
	}
}

// finish lets all motion end.
func (h *host) finish() {
	for next, ok := h.rig.Next(); ok && next < longest; next, ok = h.rig.Next() {
		h.rig.AdvanceTo(next)
	}
	h.take()
}

// newHost returns a host that counts characters.
func newHost(t *testing.T, o virtual.Options) *host {
	return &host{t: t, rig: virtual.New(o), window: o.ReceiveBuffer - 1}
}
