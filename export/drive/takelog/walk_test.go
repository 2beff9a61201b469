package takelog_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/drive/takelog"
)

// walked reads a log by walking it.
func walked(t require.TestingT, text string) takelog.Log {
	var takes []takelog.Take
	l, err := takelog.Walk(strings.NewReader(text), func(k takelog.Take) error {
		takes = append(takes, k)
		return nil
	})
	require.NoError(t, err)
	l.Takes = takes
	return l
}

// alike tells that logs that were read in different ways say the same.
func alike(t require.TestingT, a, b takelog.Log) {
	for _, l := range []*takelog.Log{&a, &b} {
		require.Equal(t, a.First(), l.First())
		require.Equal(t, a.Last(), l.Last())
		require.Equal(t, a.Next(), l.Next())
		require.Equal(t, a.NextVirtual(), l.NextVirtual())
		require.Equal(t, a.Virtual, l.Virtual)
		ka, ca := a.LastCut()
		k, c := l.LastCut()
		require.Equal(t, ca, c)
		require.Equal(t, ka.Number, k.Number)
	}
	require.Equal(t, a.Count, b.Count)
	require.Equal(t, a.Torn, b.Torn)
	require.Equal(t, a.Known, b.Known)
}

// record draws a record, of a take that there is or is not.
func record(t *rapid.T) takelog.Record {
	return takelog.Record{
		Kind: rapid.SampledFrom([]takelog.Kind{
			takelog.Begun, takelog.Begun, takelog.Ended, takelog.Ended, takelog.Lost, takelog.Settled, takelog.Keeper, takelog.Noted, takelog.Timed, takelog.Filmed, "party",
		}).Draw(t, "kind"),
		Virtual:  rapid.Bool().Draw(t, "virtual"),
		Time:     noon.Add(time.Duration(rapid.IntRange(0, 1e9).Draw(t, "ms")) * time.Millisecond),
		Take:     rapid.IntRange(-1, 6).Draw(t, "take"),
		Planned:  rapid.SampledFrom([]float64{0, -1.5, 4.204, 1e-9, 1e300}).Draw(t, "planned"),
		Known:    rapid.Bool().Draw(t, "known"),
		Keep:     rapid.Bool().Draw(t, "keep"),
		Note:     rapid.SampledFrom([]string{"", "steam", "a \"quote\"", "flämmchen", "<b>", "tab\t"}).Draw(t, "note"),
		Hand:     rapid.SampledFrom([]string{"", "left", "right"}).Draw(t, "hand"),
		Late:     rapid.Float64Range(-1, 1).Draw(t, "late"),
		Shift:    rapid.MapOfN(rapid.SampledFrom([]string{"left", "take"}), rapid.Float64Range(-1, 1), 0, 2).Draw(t, "shift"),
		Worst:    rapid.SliceOfN(rapid.Just(takelog.Worst{Axis: "rail", Value: 0.01, Unit: "mm"}), 0, 2).Draw(t, "worst"),
		Film:     rapid.SampledFrom([]*takelog.Film{nil, {File: "B.mov", Frames: 300, In: 85, Out: 133}}).Draw(t, "film"),
		Outcome:  "finished",
		Executed: 12.25,
	}
}

// A log that is walked is the log that is read, with its takes in order, whatever
// stands in it: takes that are told of twice, ends without a beginning, numbers
// that come again, torn lines.
func TestWalkingIsReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		for range rapid.IntRange(0, 30).Draw(t, "lines") {
			line, err := json.Marshal(record(t))
			require.NoError(t, err)
			if rapid.IntRange(0, 9).Draw(t, "torn") == 0 {
				line = line[:rapid.IntRange(0, len(line)).Draw(t, "cut")]
			}
			b.Write(line)
			b.WriteString(rapid.SampledFrom([]string{"\n", "\r\n", "\n\n"}).Draw(t, "end"))
		}
		all, err := takelog.Read(strings.NewReader(b.String()))
		require.NoError(t, err)
		w := walked(t, b.String())
		require.Equal(t, len(all.Takes), len(w.Takes))
		for i := range all.Takes {
			require.Equal(t, all.Takes[i], w.Takes[i])
			require.True(t, all.Takes[i].Virtual() || all.Has(all.Takes[i].Number))
		}
		// Nothing that is virtual changes what is said of the others.
		var metal strings.Builder
		for line := range strings.Lines(b.String()) {
			if !strings.Contains(line, `"virtual":true`) {
				metal.WriteString(line)
			}
		}
		m, err := takelog.Read(strings.NewReader(metal.String()))
		require.NoError(t, err)
		real := slices.DeleteFunc(slices.Clone(all.Takes), takelog.Take.Virtual)
		require.Equal(t, append([]takelog.Take{}, m.Takes...), append([]takelog.Take{}, real...))
		require.Equal(t, len(m.Takes), all.Real())
		require.Equal(t, m.Next(), all.Next())
		require.Equal(t, m.Last(), all.Last())
		mk, mc := m.LastCut()
		ak, ac := all.LastCut()
		require.Equal(t, mc, ac)
		require.Equal(t, mk.Number, ak.Number)
		if all.Torn == 0 { // a line that cannot be read may have been of a rig of metal
			require.Equal(t, m.Known, all.Known)
		}
		alike(t, all, w)
		for _, wanted := range []func(takelog.Take) bool{
			func(k takelog.Take) bool { return k.Keep },
			func(k takelog.Take) bool { return k.Late != nil },
		} {
			var want []takelog.Take
			for _, k := range all.Takes {
				if wanted(k) {
					want = append(want, k)
				}
			}
			p, err := takelog.Pick(strings.NewReader(b.String()), wanted)
			require.NoError(t, err)
			require.Equal(t, want, p.Takes)
			alike(t, all, p)
		}
		s, err := takelog.Scan(strings.NewReader(b.String()))
		require.NoError(t, err)
		alike(t, all, s)
	})
}

func TestWalkingStops(t *testing.T) {
	text := written(t, day()).String()
	enough, calls := errors.New("enough"), 0
	_, err := takelog.Walk(strings.NewReader(text), func(takelog.Take) error { calls++; return enough })
	require.ErrorIs(t, err, enough)
	require.Equal(t, 1, calls)
	_, err = takelog.Walk(seeker{iotest.ErrReader(io.ErrUnexpectedEOF), nil}, nil)
	require.ErrorIs(t, err, io.ErrUnexpectedEOF)
	_, err = takelog.Walk(seeker{strings.NewReader(text), io.ErrNoProgress}, nil)
	require.ErrorIs(t, err, io.ErrNoProgress)
}

// seeker reads, and seeks nowhere.
type seeker struct {
	io.Reader
	err error
}

func (s seeker) Seek(int64, int) (int64, error) { return 0, s.err }

// A log that goes on while it is walked is the log that it was.
func TestALogThatGrowsWhileItIsWalked(t *testing.T) {
	text := written(t, day()[:2]).String()
	g := &growing{strings.NewReader(text), text + written(t, day()[2:]).String()}
	l, err := takelog.Walk(g, func(k takelog.Take) error {
		require.True(t, k.Cut)
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, 1, l.Count)
	g = &growing{strings.NewReader(written(t, day()).String()), text} // somebody has cut it
	_, err = takelog.Walk(g, func(takelog.Take) error { return nil })
	require.NoError(t, err)
	// Somebody has written another, with more of an end than there was.
	begin, end := `{"record":"begin","take":1}`+"\n", `{"record":"end","take":1}`+"\n"
	g = &growing{strings.NewReader(begin + begin + begin), begin + end + end + begin}
	_, err = takelog.Walk(g, func(takelog.Take) error { return nil })
	require.NoError(t, err)
}

// growing is another text the second time.
type growing struct {
	*strings.Reader
	then string
}

func (g *growing) Seek(int64, int) (int64, error) {
	g.Reader = strings.NewReader(g.then)
	return 0, nil
}

// A line that never ends is one torn line, and is not held.
func TestALineThatNeverEnds(t *testing.T) {
	for _, long := range []string{strings.Repeat("x", 5<<20), `{"record":"lost"}` + strings.Repeat(" ", 3<<20) + "x"} {
		l, err := takelog.Scan(strings.NewReader(`{"record":"begin","take":4}` + "\n" + long + "\n" + `{"record":"note","take":4,"note":"on"}`))
		require.NoError(t, err)
		require.Equal(t, 1, l.Torn)
		require.Equal(t, 5, l.Next())
	}
}

// long is the log of so many lines, three a take, made as it is read.
type long struct {
	lines, at int
	rest      []byte
}

func (l *long) Read(p []byte) (int, error) {
	if len(l.rest) == 0 {
		if l.at == l.lines {
			return 0, io.EOF
		}
		n := l.at/3 + 1
		switch l.at % 3 {
		case 0:
			l.rest = fmt.Appendf(l.rest, `{"record":"begin","time":"2026-03-14T12:00:01.123456789+01:00","take":%d,"shot":"lantern.toml","plan":"0123456789abcdef","rig":"Bench rail and table","rounds":3,"planned_s":12.012}`+"\n", n)
		case 1:
			l.rest = fmt.Appendf(l.rest, `{"record":"end","time":"2026-03-14T12:00:14.123456789+01:00","take":%d,"rounds":3,"planned_s":12.012,"executed_s":12.0124,"executed_uncertainty_s":0.0028,"worst":[{"axis":"rail","value":0.0123,"unit":"mm"},{"axis":"table","value":0.05,"unit":"deg"}],"outcome":"finished","position_known":true}`+"\n", n)
		default:
			l.rest = fmt.Appendf(l.rest, `{"record":"settled","time":"2026-03-14T12:00:15.123456789+01:00"}`+"\n")
		}
		l.at++
	}
	n := copy(p, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}

func (l *long) Seek(int64, int) (int64, error) {
	l.at, l.rest = 0, nil
	return 0, nil
}

// lines400k is more than a lifetime of takes.
const lines400k = 400_000

// The memory that a long log takes to read does not grow with it: what is held at
// any time is a buffer, and for a walk a number a take.
func TestALongLogIsReadInLittleMemory(t *testing.T) {
	held := func(lines int, read func(*long)) (most uint64) {
		runtime.GC()
		var before, now runtime.MemStats
		runtime.ReadMemStats(&before)
		l := &long{lines: lines}
		read(l)
		runtime.GC()
		runtime.GC() // what is pooled lasts one longer
		runtime.ReadMemStats(&now)
		return now.HeapAlloc - min(before.HeapAlloc, now.HeapAlloc)
	}
	// HeapAlloc after a collection amid the walk is what it holds.
	amid := func(lines int) uint64 {
		var most uint64
		n := 0
		_ = held(lines, func(l *long) {
			var before, now runtime.MemStats
			runtime.ReadMemStats(&before)
			_, err := takelog.Walk(l, func(takelog.Take) error {
				if n++; n%(lines/9) == 0 {
					runtime.GC()
					runtime.ReadMemStats(&now)
					most = max(most, now.HeapAlloc-min(before.HeapAlloc, now.HeapAlloc))
				}
				return nil
			})
			require.NoError(t, err)
		})
		return most
	}
	var l takelog.Log
	scanned := held(lines400k, func(r *long) {
		var err error
		l, err = takelog.Scan(r)
		require.NoError(t, err)
	})
	require.Equal(t, 133_335, l.Next())
	small, large := amid(4_000), amid(lines400k)
	t.Logf("of 400 000 lines a scan keeps %d bytes; a walk holds %d bytes, of 4 000 lines %d", scanned, large, small)
	require.Less(t, scanned, uint64(100<<10))
	require.Less(t, large, uint64(8<<20), "a megabyte of line, and some bytes a take")
}

func BenchmarkScan400k(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_, err := takelog.Scan(&long{lines: lines400k})
		require.NoError(b, err)
	}
}

func BenchmarkWalk400k(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_, err := takelog.Walk(&long{lines: lines400k}, func(takelog.Take) error { return nil })
		require.NoError(b, err)
	}
}

// BenchmarkMade400k is what making the lines takes of the two above.
func BenchmarkMade400k(b *testing.B) {
	for b.Loop() {
		_, err := io.Copy(io.Discard, struct{ io.Reader }{&long{lines: lines400k}})
		require.NoError(b, err)
	}
}

// bad is a reader that panics.
type bad struct{}

func (bad) Read([]byte) (int, error) { panic("the disk is on fire") }

// A panic of a goroutine of the reading is one of who reads.
func TestAPanicIsTheReaders(t *testing.T) {
	require.PanicsWithValue(t, "the disk is on fire", func() { _, _ = takelog.Read(bad{}) })
}
