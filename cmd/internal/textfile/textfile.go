// Package textfile reads and changes the files that a person writes: shots, rigs and
// sequences.
package textfile

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/setup"
)

// Largest is how many bytes of a shot or rig file are read, plus one so
// that the reader can tell that there was more: a file that long was not
// written by hand.
const Largest = 1<<20 + 1

// Read reads at most Largest bytes and words what goes wrong.
func Read(name string) ([]byte, error) {
	data, err := read(name)
	if err != nil {
		return nil, Unread(name, err)
	}
	return data, nil
}

func read(name string) ([]byte, error) {
	file, err := atomicfile.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() { _ = file.Close() }()
	return io.ReadAll(io.LimitReader(file, Largest))
}

// Beside returns the file that another one names, which is beside it.
func Beside(from, name string) string {
	if filepath.IsAbs(name) {
		return filepath.Clean(name)
	}
	return filepath.Join(filepath.Dir(from), name)
}

// Under reads a file that lies under a shot and is called name in the file from.
func Under(from, name string) (setup.Found, error) {
	found := setup.Found{Name: Beside(from, name)}
	data, err := Read(found.Name)
	if err != nil {
		return found, errors.New(strings.TrimSuffix(err.Error(), newOne))
	}
	found.Data = data
	found.Same, err = atomicfile.Real(found.Name)
	return found, err
}

// near is the file of a folder that may be meant with a name that is not there.
func near(name string) string {
	entries, err := os.ReadDir(filepath.Dir(name))
	if err != nil {
		return ""
	}
	var files []string
	for _, e := range entries {
		if stem, ok := strings.CutSuffix(e.Name(), ending); ok {
			files = append(files, stem)
		}
	}
	stem := strings.TrimSuffix(filepath.Base(name), ending) // an ending that all have makes no name like another
	if other := source.Nearest(stem, files); other != "" && other+ending != filepath.Base(name) {
		return fmt.Sprintf("; did you mean %q?", filepath.Join(filepath.Dir(name), other+ending))
	}
	return ""
}

// newOne is what is said where a file is missing that the program could begin.
const newOne = "; \"seamrail new\" writes one to start from"

func begun(name string) string {
	if x := filepath.Ext(name); x != "" && x != ending {
		return ""
	}
	return newOne
}

// ending is that of the names of shots, rigs and all that lies under them.
const ending = ".toml"

// Unread words why a file could not be read.
func Unread(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no file %s%s", name, cmp.Or(near(name), begun(name)))
	}
	if cause, ok := atomicfile.Cause(err); ok {
		return fmt.Errorf("cannot read %s: %w", name, cause)
	}
	return err // it is no plain file, and says so
}

// Value is one value of a file: where it stands, and what stands there. How says how it
// is known, in place of a mark of a rig file that it was read, guessed or to be measured;
// "" leaves that.
type Value struct{ Path, Text, How string }

// Rewrite changes values of a file, if what comes out is sound; else it says so, with
// what is wrong.
func Rewrite(file, unsound string, sound func([]byte) error, values ...Value) error {
	data, err := Read(file)
	if err != nil {
		return err
	}
	for _, v := range values {
		if data, err = rig.Set(file, data, v.Path, v.Text, v.How); err != nil {
			return err
		}
	}
	if err := sound(data); err != nil {
		return fmt.Errorf("%s%w", unsound, err)
	}
	return atomicfile.WriteBack(file, atomicfile.Bytes(data))
}

// WrongKind is an error where a file that could not be understood as what was wanted
// is something else: it says what, and what takes it. Where nobody can tell it is nil.
func WrongKind(name string, data []byte, want filekind.Kind) error {
	is := filekind.Of(data)
	if is == filekind.Unknown || is == want {
		return nil
	}
	return fmt.Errorf("%s: this is %s; %s", plain.Text(name), is, insteadOf(plain.Text(name), is, want))
}

// Rather is the error of a file, or that of WrongKind if it is something else.
func Rather(err error, name string, data []byte, want filekind.Kind) error {
	if err != nil {
		err = cmp.Or(WrongKind(name, data, want), err)
	}
	return err
}

// insteadOf says what to do with a file of a kind where another was wanted.
func insteadOf(name string, is, want filekind.Kind) string {
	switch {
	case is == filekind.Sequence && want == filekind.Rig:
		return "a rig file is wanted here, as a shot names one under [rig] file"
	case is == filekind.Sequence:
		return fmt.Sprintf("\"seamrail sequence %s\" takes it, and \"seamrail sheet --sequence %s\"; each of its shots is a file of its own", name, name)
	case is == filekind.Rig && want == filekind.Sequence:
		return "a sequence names shots under [[shot]] file, and a shot names it under [rig] file"
	case is == filekind.Rig:
		return "a shot names it under [rig] file, and the shot is what this takes"
	case is == filekind.SetUp && want == filekind.Shot:
		return "a shot or a sequence names it as setup, and the shot is what this takes"
	case is == filekind.SetUp:
		return "a shot or a sequence names it as setup, and " + want.String() + " is wanted here"
	case is == filekind.Camera || is == filekind.Lens || is == filekind.Lamp:
		return "a set-up or a shot takes it from the shelf under [camera] or [[scene.lamps]]"
	case want == filekind.Rig:
		return "a rig file is wanted here, as it names one under [rig] file"
	}
	return fmt.Sprintf("\"seamrail plan %s\" takes it; a sequence names it under [[shot]] file", name)
}

// Stdin is the name of a file that means standard input.
const Stdin = "-"

// AShot is an error where the file of a name is there and is no shot but something
// else, for what takes the name alone.
func AShot(name string) error {
	if name == "" || name == Stdin {
		return nil
	}
	data, err := Read(name)
	if err != nil {
		return nil // it may be gone: what is beside it is still there
	}
	return WrongKind(name, data, filekind.Shot)
}
