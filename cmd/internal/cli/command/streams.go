package command

import (
	"cmp"
	"io"
	"os"
	"runtime/debug"
	"strconv"

	"golang.org/x/term"

	"seamrail/cmd/internal/host"
)

// Streams is where a command reads and prints.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
	Colour   bool // Out is a terminal that wants colour
	Progress bool // Err is a terminal that a bar can be drawn on
	Wide     int  // how many characters a line has, 0 as Out tells
	Asks     bool // In and Out are a terminal, at which somebody can answer

	// OpenPort opens a serial port; nil is as the system does.
	OpenPort func(name string, baud int) (host.Port, error)

	unguard func() // lets a command deal with signals itself
}

// Release lets the command deal with signals itself from now on.
func (s Streams) Release() {
	if s.unguard != nil {
		s.unguard()
	}
}

// Guarded are the streams of a command that something else guards until it lets the
// command deal with signals itself.
func (s Streams) Guarded(release func()) Streams {
	s.unguard = release
	return s
}

// Files are those that are printed to, where they are files.
func (s Streams) Files() (out []*os.File) {
	for _, w := range []io.Writer{s.Out, s.Err} {
		if f, ok := w.(*os.File); ok {
			out = append(out, f)
		}
	}
	return out
}

// System returns the streams of the process. Colour is off when the output is
// not a terminal, when NO_COLOR is set to anything (the convention of
// no-color.org) or when the terminal is dumb.
func System() Streams {
	plain := os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb"
	return Streams{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr,
		Colour:   !plain && terminal(os.Stdout),
		Asks:     terminal(os.Stdin) && terminal(os.Stdout),
		Progress: terminal(os.Stderr) && os.Getenv("TERM") != "dumb",
		Wide:     asked(os.Getenv("COLUMNS")),
	}
}

// asked is a number of characters as COLUMNS says it, 0 where it says none.
func asked(columns string) int {
	n, err := strconv.Atoi(columns)
	if err != nil {
		return 0
	}
	return max(n, 0)
}

// Columns returns how many characters a line has: as was asked for, or as Out tells
// where it is a terminal, and otherwise so many.
func (s Streams) Columns(otherwise int) int {
	if s.Wide > 0 {
		return s.Wide
	}
	return cmp.Or(columns(s.Out), otherwise)
}

// columns returns how many characters a line has of a terminal; 0 = it is none.
func columns(w io.Writer) int {
	f, ok := w.(*os.File)
	if !ok || !terminal(f) {
		return 0
	}
	width, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0
	}
	return max(width, 0)
}

func terminal(f *os.File) bool { return term.IsTerminal(int(f.Fd())) }

// Version returns the version the program was built as, or "devel".
func Version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" || info.Main.Version == "(devel)" {
		return "devel"
	}
	return info.Main.Version
}
