package textfile

import (
	"fmt"

	"seamrail/motion/base/plain"
	"seamrail/motion/spec/filekind"
)

// WrongKind is an error where a file that could not be understood as what was wanted
// is something else: it says what, and what takes it. Where nobody can tell it is nil.
func WrongKind(name string, data []byte, want filekind.Kind) error {
	is := filekind.Of(data)
	if is == filekind.Unknown || is == want {
		return nil
	}
	return fmt.Errorf("%s: this is %s; %s", plain.Text(name), is, insteadOf(plain.Text(name), is, want))
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
