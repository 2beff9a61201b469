package sequence_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/plan/sample/many"
)

// The product is at 20 cos(2 pi f/48) mm to the left of where it is at a quarter, which
// are 800 of 4000 px; one frame later it would be where its speed takes it.
func TestCarries(t *testing.T) {
	c := joined(t, entry("a", `length = "13 frames"`)+entry("a", `from = "30 frames"`), map[string]string{"a": seen})
	got, known, err := c.Pieces[0].Carries(12, c.Pieces[1], 30)
	require.NoError(t, err)
	require.True(t, known)
	at := func(f float64) float64 { return -800 * math.Cos(2*math.Pi*f/48) }
	speed := func(f float64) float64 { return 800 * 2 * math.Pi / 48 * math.Sin(2*math.Pi*f/48) }
	assert.InDelta(t, math.Abs(at(30)-at(12)-speed(12)), got.Jump, 0.01)
	assert.InDelta(t, math.Abs(speed(30)-speed(12)), got.Kick, 1e-3)
	assert.InDelta(t, 180, got.Turn, 1e-6)
	assert.InDelta(t, 0, got.Grows, 1e-6)
	assert.InDelta(t, got.Kick+got.Jump/48, got.Cost(), 1e-9)
	usual, err := c.Pieces[0].Usual(12, c.Pieces[1], 30)
	require.NoError(t, err)
	assert.InDelta(t, max(speed(12)-speed(11), math.Abs(speed(31)-speed(30))), usual.Kick, 1e-3)
	assert.True(t, got.Shows(c.Pieces[0].Bounds(), usual))

	// The next frame of the same shot is off by no more than the speed changes in it.
	got, _, err = c.Pieces[0].Carries(12, c.Pieces[0], 13)
	require.NoError(t, err)
	assert.Less(t, got.Jump, 1.0)
	// At the turnaround the motion changes most, and evenly: nothing shows there.
	for _, f := range []int64{12, 23, 24, 47} {
		got, _, err = c.Pieces[0].Carries(f, c.Pieces[0], f+1)
		require.NoError(t, err)
		usual, err = c.Pieces[0].Usual(f, c.Pieces[0], f+1)
		require.NoError(t, err)
		assert.False(t, got.Shows(c.Pieces[0].Bounds(), usual), "frame %d: %+v, %+v", f, got, usual)
	}
	_, known, err = planPiece(t).Carries(1, c.Pieces[0], 2)
	require.NoError(t, err)
	assert.False(t, known, "without a camera")
}

func planPiece(t *testing.T) sequence.Piece {
	return joined(t, entry("a"), map[string]string{"a": across}).Pieces[0]
}

// Every pair of frames within reach is tried: none that is tried here one by one costs less.
func TestNoCutCarriesBetter(t *testing.T) {
	pass := strings.Replace(seen, "from = \"100 mm\"\nto = \"140 mm\"\nlaw = \"harmonic\"", "move = \"through\"\nfrom = \"100 mm\"\nto = \"140 mm\"", 1)
	require.NotEqual(t, seen, pass)
	many.Check(t, 12, func(t *rapid.T) {
		var b strings.Builder
		for range 2 {
			b.WriteString(entry(rapid.SampledFrom([]string{"a", "b"}).Draw(t, "file"), fmt.Sprintf(`from = "%d frames"`, rapid.IntRange(0, 47).Draw(t, "from")),
				fmt.Sprintf(`length = "%d frames"`, rapid.IntRange(1, 60).Draw(t, "length"))))
		}
		c := joined(t, b.String(), map[string]string{"a": seen, "b": pass})
		all, err := c.Propose()
		require.NoError(t, err)
		for _, p := range all {
			a, z := c.Pieces[c.Cuts[p.Cut].From], c.Pieces[c.Cuts[p.Cut].To]
			require.True(t, p.OutFrom <= a.Last() && a.Last() <= p.OutTo && p.InFrom <= z.From && z.From <= p.InTo)
			require.LessOrEqual(t, p.OutTo-p.OutFrom, 2*a.Reach())
			least := math.Inf(1)
			for out := p.OutFrom; out <= p.OutTo; out++ {
				for in := p.InFrom; in <= p.InTo; in++ {
					x, known, err := a.Carries(out, z, in)
					require.True(t, known && err == nil)
					least = min(least, x.Cost())
				}
			}
			require.InDelta(t, least, p.Would.Cost(), 1e-9)
			require.LessOrEqual(t, p.Would.Cost(), p.Was.Cost())
			again, _, err := a.Carries(p.Out, z, p.In)
			require.NoError(t, err)
			require.InDelta(t, again.Cost(), p.Would.Cost(), 1e-9)
		}
		for _, x := range c.Changes(all) {
			require.Positive(t, x.Length)
			require.True(t, x.From >= 0 && x.From < c.Pieces[x.Piece].Loop())
		}
	})
}

// Of one shot cut in two, where it goes on, or all but goes on, is found: within a frame.
func TestWhereAShotGoesOnIsFound(t *testing.T) {
	c := joined(t, entry("a", `length = "10 frames"`)+entry("a", `from = "15 frames"`, `length = "20 frames"`), map[string]string{"a": seen})
	all, err := c.Propose()
	require.NoError(t, err)
	require.Len(t, all, 2)
	p := all[0]
	assert.LessOrEqual(t, max(p.Out-p.In, p.In-p.Out), int64(1))
	assert.Less(t, p.Would.Cost(), 1.0)
	assert.Greater(t, p.Was.Cost(), 10.0)
	assert.True(t, p.Better())
	changes := c.Changes(all[:1])
	require.NotEmpty(t, changes)
	assert.EqualValues(t, 0, changes[0].From)
	assert.Equal(t, p.Out+1, changes[0].Length)
}

// What a take does not record cannot be cut to: before its first round, after its last,
// and beyond a loop that is cut back.
func TestCutsStayInTheTake(t *testing.T) {
	once := strings.Replace(seen, "[rig]\n", "[take]\nrounds = 1\nhandles = \"30 frames\"\n[rig]\n", 1)
	c := joined(t, entry("a", `from = "2 frames"`, `length = "44 frames"`)+entry("a", `from = "2 frames"`, `length = "44 frames"`), map[string]string{"a": once})
	all, err := c.Propose()
	require.NoError(t, err)
	p := all[0]
	assert.Equal(t, []int64{24, 47, 0, 23}, []int64{p.OutFrom, p.OutTo, p.InFrom, p.InTo})
	assert.Empty(t, c.Changes(nil))
}

// What is proposed stands once it is written, though ends that were counted from the clip's
// first frame or in beats would be elsewhere: the clip then has the frames that were told.
func TestWhatIsProposedStands(t *testing.T) {
	const song = "playback = \"24\"\n[music]\ntempo = 100\n"
	many.Check(t, 12, func(t *rapid.T) {
		var lines []string
		var b strings.Builder
		b.WriteString(song)
		for i := range 4 {
			from := fmt.Sprintf(`from = "%d frames"`, rapid.IntRange(0, 47).Draw(t, "from"))
			last := rapid.SampledFrom([]string{`length = "31 frames"`, `length = "2 beats"`, fmt.Sprintf(`until = "beat %d"`, 3*i+4), fmt.Sprintf(`until = "%d frames"`, 43*i+43)}).Draw(t, "lasts")
			lines = append(lines, from, last)
			b.WriteString(entry("a", from, last))
		}
		c, err := join(t, b.String(), map[string]string{"a": seen})
		if err != nil {
			t.Skip("ends before it begins")
		}
		all, err := c.Propose()
		require.NoError(t, err)
		changes := c.Changes(all)
		moved := int64(0)
		want := map[int]sequence.Change{}
		for _, x := range changes {
			want[x.Piece], moved = x, x.Moved
			lines[2*x.Piece] = fmt.Sprintf(`from = "%d frames"`, x.From)
			if x.Length != c.Pieces[x.Piece].Frames || x.Restated {
				lines[2*x.Piece+1] = fmt.Sprintf(`length = "%d frames"`, x.Length)
			}
		}
		b.Reset()
		b.WriteString(song)
		for i := range 4 {
			b.WriteString(entry("a", lines[2*i], lines[2*i+1]))
		}
		then := joined(t, b.String(), map[string]string{"a": seen})
		require.Equal(t, c.Frames+moved, then.Frames)
		for i, p := range then.Pieces {
			from, length := c.Pieces[i].From, c.Pieces[i].Frames
			if x, ok := want[i]; ok {
				from, length = x.From, x.Length
			}
			require.Equal(t, []int64{from, length}, []int64{p.From, p.Frames})
		}
	})
}

// An end that is said of the clip is said anew where the shots before it grow, though
// nothing of its own changes; on both sides of that.
func TestAnEndIsSaidAnew(t *testing.T) {
	ends := func(last string) sequence.Change {
		c := joined(t, "[music]\ntempo = 120\n"+entry("a", `length = "10 frames"`)+entry("a", `from = "15 frames"`, `length = "20 frames"`)+entry("blind", last),
			map[string]string{"a": seen, "blind": across})
		all, err := c.Propose()
		require.NoError(t, err)
		changes := c.Changes(all)
		require.NotEmpty(t, changes)
		before := changes[min(1, len(changes)-1)]
		require.NotZero(t, before.Moved)
		at := changes[len(changes)-1]
		require.True(t, at.Piece < 2 || at.Moved == before.Moved && at.Restated, "%+v", changes)
		return at
	}
	for last, length := range map[string]int64{`until = "60 frames"`: 30, `until = "beat 7"`: 42, `length = "2 beats"`: 24} {
		x := ends(last)
		assert.Equal(t, []any{2, int64(0), length}, []any{x.Piece, x.From, x.Length}, last)
	}
	assert.Less(t, ends(`length = "30 frames"`).Piece, 2)
}

// Where nobody sees that anything is off, nothing is better.
func TestACutThatIsFineStays(t *testing.T) {
	slow := strings.NewReplacer("harmonic", "3-4-5", `to = "140 mm"`, `to = "102 mm"`).Replace(seen)
	for from, fine := range map[int]bool{0: true, 12: false} {
		c := joined(t, entry("a", fmt.Sprintf(`from = "%d frames"`, from))+entry("a", `light = "dusk"`), map[string]string{"a": slow})
		all, err := c.Propose()
		require.NoError(t, err)
		require.Len(t, all, 2)
		assert.Equal(t, fine, all[0].Fine(), "%+v", all[0])
		assert.Equal(t, !fine, all[0].Better())
	}
}

func TestNothingIsProposedOfWhatIsNotSeen(t *testing.T) {
	c := joined(t, entry("a", `length = "12 frames"`)+entry("a", `from = "30 frames"`), map[string]string{"a": across})
	all, err := c.Propose()
	require.NoError(t, err)
	assert.Empty(t, all)
}

func TestUses(t *testing.T) {
	s, err := sequence.Decode("f.toml", []byte(base+"take = 3\nreel = \"A012C003\"\ndissolve = \"12 frames\"\n"), nil)
	require.NoError(t, err)
	e := s.Entries[0]
	assert.Equal(t, []any{3, "A012C003", "12 frames", true}, []any{e.Take, e.Reel, e.Dissolve.String(), e.Stated()})
	for text, want := range map[string]string{
		`take = 0`:                `f.toml:4:8: shot[1].take "0" must be from 1 to`,
		`reel = "A012_C003"`:      `f.toml:4:8: shot[1].reel "A012_C003" has 9 characters, and an edit list holds 8; "A012_C00" would fit`,
		`reel = "a b"`:            `must be letters, digits and _ alone`,
		`reel = "übung"`:          `must be letters, digits and _ alone`,
		`reel = ""`:               `must be letters, digits and _ alone`,
		`reel = "bl"`:             `means no recording in an edit list`,
		`dissolve = "-1 frames"`:  `shot[1].dissolve "-1 frames" must be 0 or more`,
		`records = "photos"`:      `shot[1].records "photos" must be`,
		`bitrate = "fast"`:        `shot[1].bitrate "fast" must be a number and one of Gbit/s`,
		`frame-size = "0 MB"`:     `shot[1].frame-size "0 MB" must be above 0`,
		`dissolve = "2.5 frames"`: `must be a whole number of frames; 2 or 3 frames would do`,
		`dissolve = "12"`:         `needs a unit`,
	} {
		_, err := sequence.Decode("f.toml", []byte(base+text+"\n"), nil)
		assert.ErrorContains(t, err, want, text)
	}
	_, err = join(t, entry("a", `dissolve = "11 s"`), map[string]string{"a": across})
	assert.ErrorContains(t, err, `clip.toml:3:12: shot[1].dissolve "11 s" is 264 frames, and an edit list holds 255; "255 frames" would fit`)
	c := joined(t, entry("a", `dissolve = "0.5 s"`), map[string]string{"a": across})
	assert.EqualValues(t, 12, c.Pieces[0].Dissolve)
	assert.False(t, c.Pieces[0].Rounded)
}

// Entries of one recording say of it together what they say, and not against each other.
func TestARecordingIsSaidOnce(t *testing.T) {
	files := map[string]string{"a": across}
	c := joined(t, entry("a")+entry("a", `bitrate = "80 Mbit/s"`, `records = "film"`)+entry("a", `bitrate = "10 MB/s"`)+entry("a", `light = "dusk"`, `records = "stills"`, `frame-size = "1 MB"`), files)
	require.Len(t, c.Films, 2)
	assert.Equal(t, c.Films[0].Record.Mul(exact.Int(10e6)).String(), c.Films[0].Bytes.String())
	assert.Equal(t, []sequence.Kind{sequence.Filmed, sequence.Stills}, []sequence.Kind{c.Films[0].Kind(), c.Films[1].Kind()})
	for _, x := range [][3]string{{`records = "stills"`, `records = "film"`, `shot[2].records "film"`}, {`bitrate = "80 Mbit/s"`, `bitrate = "81 Mbit/s"`, `shot[2].bitrate "81 Mbit/s"`}, {`frame-size = "1 MB"`, `frame-size = "2 MB"`, `shot[2].frame-size "2 MB"`}} {
		_, err := join(t, entry("a", x[0])+entry("a", x[1]), files)
		assert.ErrorContains(t, err, x[2]+" differs from what a [[shot]] before it says of the same recording; say it once, or the same")
		joined(t, entry("a", x[0])+entry("a", x[1], `light = "dusk"`), files)
	}
}

// BenchmarkPropose looks for the best of 25 by 25 pairs of frames for each of two cuts.
func BenchmarkPropose(b *testing.B) {
	c := joined(b, entry("a", `from = "12 frames"`, `length = "120 frames"`)+entry("a", `from = "30 frames"`, `length = "120 frames"`), map[string]string{"a": seen})
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Propose(); err != nil {
			b.Fatal(err)
		}
	}
}
