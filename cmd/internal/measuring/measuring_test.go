package measuring_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/measuring"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// walk is a rig file measured with what its machine truly is, and what was printed.
type walk struct {
	*testing.T
	file string
	out  bytes.Buffer
	port *measuring.Port
	// of a sweep: when it did what, and the phone's record
	log, record string
}

func walked(t *testing.T, text string) *walk {
	t.Helper()
	file := filepath.Join(t.TempDir(), "bench.toml")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	return &walk{T: t, file: file}
}

// on has a rig of software, whose machine is as another text says.
func (w *walk) on(truth string) *walk {
	w.port = &measuring.Port{Virtual: true}
	if truth != "" {
		r, _, err := rig.Decode("true.toml", []byte(truth))
		require.NoError(w, err)
		w.port.Truth = &r
	}
	return w
}

func (w *walk) run(axis, what string, answers ...string) (*measuring.Found, error) {
	ask, err := measuring.NewAsker(&w.out, strings.NewReader(""), answers, false)
	require.NoError(w, err)
	k := &measuring.Walk{File: w.file, Ask: ask, Port: w.port, Write: true, Sweep: w.log, Record: w.record}
	found, err := k.Run(axis, what, func(func()) func() { return func() {} })
	if len(found) != 1 {
		return nil, err
	}
	return found[0], err
}

func (w *walk) rig() rig.Rig {
	data, err := os.ReadFile(w.file)
	require.NoError(w, err)
	r, _, err := rig.Decode(w.file, data)
	require.NoError(w, err)
	return r
}

// changed replaces the first of each text; all must be there.
func changed(t *testing.T, text string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		require.Contains(t, text, pairs[i])
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// bench is the built-in rig for a kind of controller.
func bench(t *testing.T, kind rig.ControllerKind) string {
	t.Helper()
	return string(starter.RigWith(kind))
}

// On every kind of controller, what a machine truly is comes out within what is told of it.
func TestWhatIsFoundIsTrue(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		file := bench(t, kind)
		truth := changed(t, file, "teeth = 20", "teeth = 21", `backlash     = "0.05 mm"`, `backlash     = "0.13 mm"`,
			`# shake      = { frequency = "6 Hz", damping = "3 %" }`, `shake = { frequency = "5.4 Hz", damping = "2.5 %" }`,
			`gear         = "36:1"`, `gear         = "35:1"`, `speed        = "400 mm/s"`, `speed        = "230 mm/s"`)
		real, _, err := rig.Decode("true.toml", []byte(truth))
		require.NoError(t, err)
		rail, table := real.Axes[0], real.Axes[1]

		f, err := walked(t, file).on(truth).run("rail", "steps", "usual=n")
		require.NoError(t, err, kind)
		assert.True(t, f.Value.Has(rail.StepsPerUnit.Float()), "%s: %+v", kind, f.Value)
		w := walked(t, file).on(truth)
		_, err = w.run("rail", "steps", "usual=y", "division=0.5 mm")
		require.NoError(t, err, kind)
		assert.Equal(t, rail.StepsPerUnit, w.rig().Axes[0].StepsPerUnit, "the guess was right")

		f, err = walked(t, file).on(truth).run("table", "turn", "usual=y")
		require.NoError(t, err, kind)
		assert.True(t, f.Value.Has(table.StepsPerUnit.Float()), "%s: %+v", kind, f.Value)

		w = walked(t, file).on(truth)
		f, err = w.run("rail", "backlash")
		require.NoError(t, err, kind)
		assert.True(t, f.Value.Has(0.13), "%s: %+v", kind, f.Value)
		assert.InDelta(t, 0.13, *w.rig().Axes[0].Backlash, f.Value.Bound())

		w = walked(t, file).on(truth)
		f, err = w.run("rail", "swing")
		require.NoError(t, err, kind)
		assert.InDelta(t, 5.4, f.Value.Value, max(f.Value.Bound(), 1e-4), kind)
		assert.InDelta(t, 0.025, w.rig().Axes[0].Shake.Spring.Damping, 1e-4)
	}
}

// A ladder stops at the first lost step, seen on a mark, and what it keeps the machine can
// do; nothing beyond what was allowed is tried.
func TestTheLadderStopsAtTheFirstLostStep(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		const fast = 90
		to := "to=190 mm"
		if kind.OneByOne() { // slower to tell, it follows on a longer way alone
			to = "to=230 mm"
		}
		file := bench(t, kind)
		w := walked(t, file).on(changed(t, file, `speed        = "400 mm/s"`, `speed        = "90 mm/s"`))
		f, err := w.run("rail", "speed", "check=mark", "most=115 mm/s", "from=150 mm", to)
		require.NoError(t, err, kind)
		require.Len(t, f.Lines, 1, "%s: %s", kind, &w.out)
		kept := w.rig().Axes[0].MaxSpeed
		assert.LessOrEqual(t, kept, fast*0.8, "%s", kind)
		assert.GreaterOrEqual(t, kept, fast*0.8/1.3, "%s", kind)
		assert.Len(t, regexp.MustCompile(`(?m)^  [0-9.]+ mm/s +lost `).FindAllString(w.out.String(), -1), 1, "nothing is tried after that")

		if !kind.PlaysSteps() { // the others take their time to find blocks
			continue
		}
		w = walked(t, file).on("")
		f, err = w.run("rail", "speed", "check=mark", "most=60 mm/s", "from=150 mm", to)
		require.NoError(t, err, kind)
		assert.Empty(t, f.Lines, "a machine that does all it was allowed changes nothing")
		for _, p := range w.peaks() {
			assert.LessOrEqual(t, p, 60.0005, "%s", kind)
		}
	}
}

// peaks are how fast the machine of software was told to go, in all that was tried.
func (w *walk) peaks() (out []float64) {
	for _, m := range regexp.MustCompile(`(?m)^  ([0-9.]+) mm/s +held`).FindAllStringSubmatch(w.out.String(), -1) {
		v, err := strconv.ParseFloat(m[1], 64)
		require.NoError(w, err)
		out = append(out, v)
	}
	assert.NotEmpty(w, out)
	return out
}

// By the switch the same is seen, of speed and of acceleration.
func TestTheSwitchSeesIt(t *testing.T) {
	quick := changed(t, bench(t, rig.Buffered), `speed        = "400 mm/s"`, `speed        = "200 mm/s"`,
		`settings     = { acceleration = "3000 mm/s2", speed = "400 mm/s" }`, `settings     = { acceleration = "6000 mm/s2", speed = "200 mm/s" }`)
	truth := changed(t, quick, `acceleration = "3000 mm/s2"`, `acceleration = "2300 mm/s2"`)
	w := walked(t, quick).on(truth)
	f, err := w.run("rail", "acceleration", "from=150 mm", "to=230 mm")
	require.NoError(t, err)
	require.Len(t, f.Lines, 1)
	assert.Less(t, w.rig().Axes[0].MaxAcc, 2300.)
	assert.Greater(t, w.rig().Axes[0].MaxAcc, 2300/1.5/1.25)
	assert.Contains(t, w.out.String(), "by the switch")
}

// On every kind acceleration is tried up to what was allowed: in takes as far as the board
// follows, and what a board that plans for itself is set to in single lines. A motor that
// cannot do it is found.
func TestAccelerationOnEveryKind(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		file := bench(t, kind)
		w := walked(t, file).on("")
		f, err := w.run("rail", "acceleration", "check=mark", "most=3000 mm/s2")
		require.NoError(t, err, kind)
		assert.Empty(t, f.Doubts, kind)
		assert.Empty(t, f.Lines, kind)
		assert.Contains(t, w.out.String(), "nothing speaks against", kind)
		assert.Equal(t, !kind.PlaysSteps(), strings.Contains(w.out.String(), "in single lines"), kind)

		w = walked(t, file).on(changed(t, file, `acceleration = "3000 mm/s2"`, `acceleration = "2600 mm/s2"`))
		f, err = w.run("rail", "acceleration", "check=mark", "most=3000 mm/s2")
		require.NoError(t, err, kind)
		assert.Contains(t, w.out.String(), "lost", kind)
		if len(f.Lines) > 0 {
			assert.LessOrEqual(t, w.rig().Axes[0].MaxAcc, 2600/1.5, kind)
		} else {
			assert.Len(t, f.Doubts, 1, kind)
		}
		if !kind.PlaysSteps() {
			assert.Contains(t, strings.Join(strings.Fields(w.out.String()), " "), "set it lower", kind)
		}
	}
	// What was not allowed is not tried, by the board's own setting either.
	w := walked(t, bench(t, rig.Lockstep)).on("")
	_, err := w.run("rail", "acceleration", "check=mark", "most=100 mm/s2")
	require.NoError(t, err)
	assert.NotContains(t, w.out.String(), "in single lines")
}

// Readings by hand: a wrong unit is asked about, and what was meant comes out either way.
func TestAWrongUnitIsAskedAbout(t *testing.T) {
	file := bench(t, rig.Buffered)
	for unit, reading := range map[string]string{"cm as mm": "30 mm", "inches as mm": "11.811 mm", "mm as cm": "300 cm"} {
		w := walked(t, file)
		f, err := w.run("rail", "steps", "told=300 mm", "mark-a=0 mm", "mark-b="+reading, "wrong-unit=y")
		require.NoError(t, err, unit)
		assert.True(t, f.Value.Has(80), "%s: %+v", unit, f.Value)
		assert.Empty(t, f.Lines, unit)
	}
	w := walked(t, file)
	f, err := w.run("rail", "steps", "told=300 mm", "mark-a=0 mm", "mark-b=30 mm", "wrong-unit=n", "usual=n")
	require.NoError(t, err)
	assert.InDelta(t, 800, f.Value.Value, 1e-6, "so it is, where the person says so")
	_, err = walked(t, file).run("rail", "steps", "told=300 mm", "mark-a=0 mm", "mark-b=30 mm")
	assert.Equal(t, exit.Usage, exit.Code(err), "nobody was there to ask")
	_, err = walked(t, file).run("rail", "steps", "told=300")
	assert.ErrorContains(t, err, `needs a unit, such as "300 mm"`)
}

// Where one mark alone is ten times off, the way can turn round: that is seen before a unit is
// suspected, and the mark is named.
func TestOneMarkInAWrongUnit(t *testing.T) {
	file := bench(t, rig.Buffered)
	readings := []string{"told=200 mm", "mark-a=100 mm", "mark-b=30 mm"}
	w := walked(t, file)
	f, err := w.run("rail", "steps", append(readings, "one-mark=y")...)
	require.NoError(t, err)
	assert.True(t, f.Value.Has(80), "%+v", f.Value)
	assert.Empty(t, f.Lines)
	said := strings.Join(strings.Fields(w.out.String()), " ")
	assert.Contains(t, said, "it went -0.35 for each one it was told, the other way")
	assert.Contains(t, said, "mark b alone was ten times off, 300 mm in place of 30 mm")
	assert.NotContains(t, said, "inches")

	f, err = walked(t, file).run("rail", "steps", append(readings, "one-mark=n", "other-way=n", "usual=n")...)
	require.NoError(t, err)
	assert.InDelta(t, 80/0.35, f.Value.Value, 1e-6, "so it is, where the person says so")

	// Both marks in a wrong unit are no slip in one, though one alone would nearly do.
	f, err = walked(t, file).run("rail", "steps", "told=300 mm", "mark-a=3 mm", "mark-b=33 mm", "wrong-unit=y")
	require.NoError(t, err)
	assert.True(t, f.Value.Has(80), "%+v", f.Value)
}

// No axis was told to go further than it can.
func TestNoFurtherThanTheTravel(t *testing.T) {
	file := bench(t, rig.Buffered)
	_, err := walked(t, file).run("rail", "steps", "told=400.1 mm")
	assert.Equal(t, exit.Usage, exit.Code(err))
	assert.EqualError(t, err, "told: 400.1 mm is further than axis rail can go: its travel is 400 mm, from 0 mm to 400 mm")
	for _, told := range []string{"400 mm", "-400 mm"} {
		_, err = walked(t, file).run("rail", "steps", "told="+told, "mark-a=0 mm", "mark-b="+told)
		assert.NoError(t, err, told)
	}
}

// A camera's file is read before anything is asked.
func TestTheCameraIsReadFirst(t *testing.T) {
	var out bytes.Buffer
	ask, err := measuring.NewAsker(&out, strings.NewReader(""), nil, false)
	require.NoError(t, err)
	w := walked(t, bench(t, rig.Buffered))
	k := &measuring.Walk{File: w.file, Ask: ask, Camera: filepath.Join(t.TempDir(), "nix.toml")}
	_, err = k.Run("rail", "shutter", func(func()) func() { return func() {} })
	assert.ErrorContains(t, err, "nix.toml")
	assert.Equal(t, exit.Usage, exit.Code(err))
	assert.Empty(t, out.String())
}

// What is said fits the screen, whatever its width.
func TestQuestionsFitTheScreen(t *testing.T) {
	widest := map[int]int{}
	for _, width := range []int{0, 60, 110} {
		var out bytes.Buffer
		ask, err := measuring.NewAsker(&out, strings.NewReader(""), []string{"how=counter"}, false)
		require.NoError(t, err)
		ask.Width = width
		w := walked(t, bench(t, rig.Buffered))
		camera := filepath.Join(t.TempDir(), "camera.toml")
		require.NoError(t, os.WriteFile(camera, []byte("shutter-lag = \"0.05 s\"\n"), 0o600))
		k := &measuring.Walk{File: w.file, Ask: ask, Camera: camera}
		_, err = k.Run("rail", "shutter", func(func()) func() { return func() {} })
		require.ErrorContains(t, err, "answers ended")
		_, asked, _ := strings.Cut(out.String(), "A shutter photographs")
		for _, line := range strings.Split("A shutter photographs"+asked, "\n") {
			widest[width] = max(widest[width], len(line))
		}
	}
	assert.LessOrEqual(t, widest[60], 60)
	assert.LessOrEqual(t, widest[0], 78)
	assert.Greater(t, widest[0], 60)
	assert.LessOrEqual(t, widest[110], 110)
	assert.Greater(t, widest[110], 80)
}

// Doubts change nothing.
func TestDoubtsChangeNothing(t *testing.T) {
	file := bench(t, rig.Buffered)
	for name, c := range map[string]struct{ axis, what, answers, says string }{
		"a side that scatters": {"rail", "backlash", "up=1 mm,up=1.4 mm,up=1 mm,down=1.1 mm,down=1.1 mm,down=1.1 mm", "contradict each other"},
		"half a turn off":      {"table", "turn", "beyond=190 deg", "cannot be told from one on the other side"},
		"no whole turns":       {"table", "turn", "turns=1.5 turn", "not whole turns"},
	} {
		w := walked(t, file)
		f, err := w.run(c.axis, c.what, strings.Split(c.answers, ",")...)
		require.NoError(t, err, name)
		require.Len(t, f.Doubts, 1, name)
		assert.Contains(t, f.Doubts[0], c.says, name)
		assert.Equal(t, file, w.text(), name)
	}
	// Play that cannot be told from nothing is no line.
	w := walked(t, changed(t, file, `backlash     = "0.05 mm"`, `backlash     = "0.01 mm"`))
	f, err := w.run("rail", "backlash", "up=1 mm", "up=1 mm", "up=1.01 mm", "down=1 mm", "down=1.01 mm", "down=1 mm")
	require.NoError(t, err)
	assert.Empty(t, f.Lines)
	assert.Contains(t, w.out.String(), "not told from nothing")
}

func (w *walk) text() string {
	data, err := os.ReadFile(w.file)
	require.NoError(w, err)
	return string(data)
}

// A switch that never closes ends the run, and no line is written.
func TestASwitchThatNeverCloses(t *testing.T) {
	file := bench(t, rig.Buffered)
	w := walked(t, file).on(changed(t, file, "teeth = 20", "teeth = 10", "microsteps   = 16", "microsteps   = 4096"))
	_, err := w.run("rail", "speed")
	assert.Equal(t, exit.Rig, exit.Code(err))
	assert.ErrorContains(t, err, "alarm")
	assert.Equal(t, file, w.text())
}

// No picture is wider than a plain page, and each has one ASCII character for each of its own.
func TestPicturesFit(t *testing.T) {
	for _, p := range measuring.Pictures() {
		drawn, plain := measuring.Drawn(p, false), measuring.Drawn(p, true)
		for i, line := range strings.Split(drawn, "\n") {
			assert.LessOrEqual(t, len([]rune(line)), 80)
			assert.Len(t, strings.Split(plain, "\n")[i], len([]rune(line)), "%s", line)
		}
		assert.Regexp(t, `^[\x20-\x7e\n]*$`, plain)
	}
}

// stopper stops the walk when it reads something.
type stopper struct {
	bytes.Buffer
	at   string
	stop func()
}

func (s *stopper) Write(p []byte) (int, error) {
	n, err := s.Buffer.Write(p)
	if s.stop != nil && strings.Contains(s.String(), s.at) {
		s.stop()
		s.stop = nil
	}
	return n, err
}

// A stop ends the walk where it is, at rest, and nothing is written: while it asks and
// while it moves.
func TestAStopEndsTheWalk(t *testing.T) {
	file := bench(t, rig.Buffered)
	for what, at := range map[string]string{"backlash": "2 of 3, come to upward", "swing": "1 of 4: stopped", "speed": "held, by the switch"} {
		w := walked(t, changed(t, file, `# shake      = {`, `shake      = {`))
		before := w.text()
		out := &stopper{at: at}
		ask, err := measuring.NewAsker(out, strings.NewReader(""), []string{"from=150 mm", "to=250 mm"}, false)
		require.NoError(t, err)
		k := &measuring.Walk{File: w.file, Ask: ask, Port: &measuring.Port{Virtual: true}, Write: true}
		_, err = k.Run("rail", what, func(stop func()) func() { out.stop = stop; return func() {} })
		assert.Equal(t, exit.Stopped, exit.Code(err), "%s: %v", what, err)
		assert.Equal(t, before, w.text(), what)
	}
}

// At a port somebody has to say that the way is clear, and looks at the marks.
func TestAtAPort(t *testing.T) {
	text := changed(t, bench(t, rig.Lockstep), `home-line          = "G28"`, `home-line          = "none"`)
	r, _, err := rig.Decode("bench.toml", []byte(text))
	require.NoError(t, err)
	answers := []string{"clear=y", "at-home=y", "up=1 mm", "up=1 mm", "up=1 mm", "down=1.1 mm", "down=1.1 mm", "down=1.1 mm"}
	const hurry = 400 // the board lives so many times as fast: nobody has to wait for it
	for gone := range answers[:2] {
		w := walked(t, text)
		made := virtual.New(virtual.Of(r))
		w.port = &measuring.Port{Name: "bench", Open: func(string, int) (host.Port, error) { return virtual.NewPort(made, hurry), nil }}
		refused := slices.Clone(answers)
		refused[gone] = strings.Replace(refused[gone], "=y", "=n", 1)
		_, err := w.run("rail", "backlash", refused...)
		assert.ErrorContains(t, err, "nothing has moved")
		assert.Zero(t, made.Stats().Starts, "nor has it")
	}
}

// A port that does not open is the rig's failure, and a question without an answer is not.
func TestAPortThatDoesNotOpen(t *testing.T) {
	w := walked(t, bench(t, rig.Buffered))
	w.port = &measuring.Port{Name: "bench", Open: func(string, int) (host.Port, error) { return nil, errors.New("it is busy") }}
	_, err := w.run("rail", "backlash", "clear=y")
	assert.Equal(t, exit.Rig, exit.Code(err))
	assert.ErrorContains(t, err, "it is busy")
	_, err = w.run("rail", "backlash")
	assert.Equal(t, exit.Usage, exit.Code(err))
	assert.ErrorContains(t, err, `before "clear"`)
}

// What is measured is no guess any more: its mark says so, as it was shown.
func TestAGuessIsMeasured(t *testing.T) {
	file := changed(t, bench(t, rig.Buffered), `backlash     = "0.05 mm"       # play that is taken up where it turns round`, `backlash     = "0.05 mm"       # guessed: as belts have`)
	w := walked(t, file)
	_, err := w.run("rail", "backlash", "up=1 mm", "up=1 mm", "up=1 mm", "down=1.2 mm", "down=1.2 mm", "down=1.2 mm")
	require.NoError(t, err)
	assert.Contains(t, w.text(), `backlash     = "0.2 mm"       # measured by seamrail measure`)
	assert.Regexp(t, `\+ backlash     = "0.2 mm" +# measured by seamrail measure`, w.out.String())
}

// A table that cannot turn round has no mark that comes back.
func TestATableWithoutATurn(t *testing.T) {
	w := walked(t, changed(t, bench(t, rig.Buffered), `travel       = "endless"`, `travel       = ["-90 deg", "90 deg"]`, `home-line    = "none"`, `# home-line    = "none"`))
	_, err := w.run("table", "turn")
	assert.ErrorContains(t, err, "no room for a whole turn")
	assert.Equal(t, exit.Usage, exit.Code(err))
}

// A gear that the file states in other numbers is the same gear.
func TestAGearInOtherNumbers(t *testing.T) {
	for _, said := range []string{"36:1", "72:2"} {
		w := walked(t, changed(t, bench(t, rig.Buffered), `gear         = "36:1"`, `gear         = "`+said+`"`))
		_, err := w.run("table", "turn", "beyond=-10 deg", "usual=n")
		require.NoError(t, err)
		assert.InDelta(t, 160*360./350, w.rig().Axes[1].StepsPerUnit.Float(), 1e-3, said)
	}
}

// Play that cannot be told from nothing contradicts a file that states more.
func TestPlayThatTheFileHasTooMuchOf(t *testing.T) {
	for stated, lines := range map[string]int{"0.5 mm": 1, "0.05 mm": 1, "0.005 mm": 0} {
		w := walked(t, changed(t, bench(t, rig.Buffered), `backlash     = "0.05 mm"`, `backlash     = "`+stated+`"`))
		f, err := w.run("rail", "backlash", "up=1 mm", "up=1 mm", "up=1.01 mm", "down=1 mm", "down=1.01 mm", "down=1 mm")
		require.NoError(t, err)
		assert.Len(t, f.Lines, lines, stated)
	}
}

// What a motor loses at the least, and no eye sees, is asked of a gauge: a trial on a mark
// sees it lost.
func TestALossThatNoEyeSees(t *testing.T) {
	file := changed(t, bench(t, rig.StepPlayer), `{ pitch = "2 mm", teeth = 20 }`, `{ pitch = "0.2 mm", teeth = 20 }`)
	w := walked(t, file).on("")
	f, err := w.run("rail", "speed", "check=mark", "most=20 mm/s", "from=150 mm", "to=180 mm", "on-mark=0.08 mm")
	require.NoError(t, err)
	assert.Contains(t, strings.Join(strings.Fields(w.out.String()), " "), "may lose as little as 0.08 mm, four full steps, which no eye sees: read it with a gauge.")
	require.Len(t, f.Doubts, 1)
	w = walked(t, bench(t, rig.StepPlayer)).on("")
	_, err = w.run("rail", "speed", "check=mark", "most=20 mm/s", "from=150 mm", "to=180 mm")
	require.NoError(t, err)
	assert.NotContains(t, w.out.String(), "which no eye sees", "a belt loses 0.8 mm")
}

// A walk that is stopped half way keeps what was written, and whoever allows more than the
// file has is tried from below that.
func TestWhatWasMeasuredIsKept(t *testing.T) {
	file := bench(t, rig.Buffered)
	w := walked(t, file)
	out := &stopper{at: "speed, by trial?"}
	ask, err := measuring.NewAsker(out, strings.NewReader(""), []string{"measure-rail-backlash=y", "up=1 mm", "up=1 mm", "up=1 mm", "down=1.2 mm", "down=1.2 mm", "down=1.2 mm"}, false)
	require.NoError(t, err)
	k := &measuring.Walk{File: w.file, Ask: ask, Port: &measuring.Port{Virtual: true}, Write: true}
	found, err := k.Run("rail", "", func(stop func()) func() { out.stop = stop; return func() {} })
	assert.Equal(t, exit.Stopped, exit.Code(err))
	require.Len(t, found, 1)
	assert.True(t, found[0].Written)
	assert.InDelta(t, 0.2, *w.rig().Axes[0].Backlash, 1e-9)

	w = walked(t, changed(t, bench(t, rig.StepPlayer), `speed        = "400 mm/s"`, `speed        = "20 mm/s"`))
	_, err = w.on("").run("rail", "speed", "check=mark", "most=60 mm/s", "from=150 mm", "to=190 mm")
	require.NoError(t, err)
	assert.LessOrEqual(t, w.peaks()[0], 5.)
	assert.InDelta(t, 60, slices.Max(w.peaks()), 0.5)
}
