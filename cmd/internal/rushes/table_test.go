package rushes_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/rushes"
	"seamrail/motion/footage/against"
)

// row is a line of the table: what is true of a take, and what was found.
type row struct {
	take, what  string
	true, found float64
	sure        float64 // standard uncertainty as it is told; 0 where none is
	bar         float64 // by how much it may be off
}

func (r row) off() float64 { return math.Abs(r.found - r.true) }

// holds tells whether it was found within its bar. What is no number was not.
func (r row) holds() bool { return r.off() <= r.bar }

// table is what is true against what was found.
type table []row

func (t *table) add(take, what string, true float64, found against.Number, bar float64) {
	*t = append(*t, row{take, what, true, found.Value, found.Sure, bar})
}

// count adds what has no uncertainty.
func (t *table) count(take, what string, true, found, bar float64) {
	*t = append(*t, row{take, what, true, found, 0, bar})
}

// one adds what is to be there once, and has no uncertainty. Where there is none, or several, what
// was found is no number.
func (t *table) one(take, what string, true float64, times int, found func() float64, bar float64) {
	value := math.NaN()
	if times == 1 {
		value = found()
	}
	t.count(take, what, true, value, bar)
}

// yes adds what is to be so.
func (t *table) yes(take, what string, is bool) {
	found := 0.0
	if is {
		found = 1
	}
	*t = append(*t, row{take: take, what: what, true: 1, found: found})
}

func (t table) String() string {
	var out strings.Builder
	fmt.Fprintf(&out, "\n%-22s %-28s %12s %12s %10s %10s %10s\n", "take", "what", "true", "found", "sure", "off", "bar")
	for _, r := range t {
		miss := ""
		if !r.holds() {
			miss = "  MISSED"
		}
		fmt.Fprintf(&out, "%-22s %-28s %12.6g %12.6g %10.2g %10.2g %10.2g%s\n", r.take, r.what, r.true, r.found, r.sure, r.off(), r.bar, miss)
	}
	return out.String()
}

// hold prints the table and fails for each row that does not hold, but for those that are pending. It
// fails as well for one that is pending and holds, so that it is taken off the list.
func (t table) hold(test *testing.T, pending map[string]string) {
	test.Helper()
	test.Log(t.String())
	for _, r := range t {
		name := r.take + ": " + r.what
		why, waits := pending[name]
		switch {
		case waits && r.holds():
			test.Errorf("%s holds now: it is no longer pending", name)
		case waits:
			test.Logf("PENDING %s, found %.6g: %s", name, r.found, why)
		case !r.holds():
			test.Errorf("%s is %.6g, found %.6g, off by %.2g; at most %.2g", name, r.true, r.found, r.off(), r.bar)
		}
	}
}

// laid looks through a take and lays it on its plan.
func laid(t *testing.T, film string, p against.Plan) (*rushes.Take, against.Result) {
	t.Helper()
	took, err := rushes.Look(context.Background(), film, rushes.Options{})
	require.NoError(t, err)
	require.NoError(t, took.Cut)
	r, err := against.Lay(took.Course, p)
	require.NoError(t, err)
	return took, r
}
