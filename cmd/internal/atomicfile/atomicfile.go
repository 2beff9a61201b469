// Package atomicfile writes files whole or not at all. A reader finds what was there
// before or everything new, never half of it, whenever the program ends: by an
// error, by a signal that it hears, or by one that it does not.
//
// A file is written beside its place and renamed over it. A folder is one thing
// too: make's files belong together, and a G-code of one plan beside the sheet of
// another moves a rig where nobody expects it. It is built beside its place and
// put there in one step of the system:
//
//   - a folder that is not there is renamed into place, with the folders that
//     lead to it;
//   - one that is there is exchanged for the new one, on Linux. What else is in it
//     comes along as hard links, so that it is the same files, and a file that
//     somebody has open stays theirs. What was in the old folder is then put away,
//     and nothing in it that the new one does not have;
//   - where that cannot be, the files are renamed into the folder one by one (way
//     oneByOne says where and why). Before the first, the folder that they wait in
//     gets a name that can be seen, "unfinished-...part"; the last step takes it
//     away. A kill between leaves some of the old files or some of the new ones,
//     never of both, and the next run to the same place begins by finishing it.
//
// What is being written is held (package hold). What is left of a run that was
// killed is not, and the next run to the same place sweeps it away.
//
// A file that this run has read is never written over: see inputs.go.
package atomicfile

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"seamrail/cmd/internal/hold"
)

// bufferSize is how much is written at a time; large enough that tables of
// millions of steps are not held up by the system call.
const bufferSize = 1 << 18

// nameTries is how many names for what is temporary are tried before the folder
// is held to be at fault. Two of them alike is a chance of 2^-64; what is swept by
// another run before it is held takes one more.
const nameTries = 8

// Write calls fill with a writer and puts what it wrote at path. When fill or
// the disk fails, path is as it was and the error names it. A device or pipe
// is written to directly, since replacing it would be a surprise; a symbolic
// link keeps pointing where it did and its target is replaced. A file that this
// run has read is refused.
func Write(path string, fill func(io.Writer) error) error { return write(path, "", fill) }

// WriteBack is Write for a file that was read in order to be changed.
func WriteBack(path string, fill func(io.Writer) error) error {
	real, err := Real(path)
	if err != nil {
		return plain(path, err)
	}
	return write(path, real, fill)
}

// Bytes returns what fills a file with data.
func Bytes(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
}

func write(path, but string, fill func(io.Writer) error) error {
	if path == "" {
		return errors.New("the file to write has no name")
	}
	target, err := Real(path)
	if err != nil {
		target = path // the next step says what is wrong
	}
	info, err := os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := dangling(path); err != nil {
			return err
		}
		return replace(path, target, but, 0, fill)
	case err != nil:
		return plain(path, err)
	case info.IsDir():
		return fmt.Errorf("%s is a folder; name a file in it, such as %s", path, filepath.Join(path, "loop.out"))
	case !info.Mode().IsRegular():
		return direct(path, fill)
	}
	return replace(path, target, but, info.Mode(), fill)
}

// dangling refuses a link that leads nowhere: whoever made it meant a place that
// is not there now, such as a card that has been taken out.
func dangling(path string) error {
	if to, err := os.Readlink(path); err == nil {
		return fmt.Errorf("%s is a link to %s, which is not there; name that file itself, or take the link away", path, to)
	}
	return nil
}

// direct writes to something that is not a regular file.
func direct(path string, fill func(io.Writer) error) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return plain(path, err)
	}
	err = buffered(f, fill)
	return plain(path, errors.Join(err, f.Close()))
}

// replace writes beside target and renames over it. A mode of 0 means that of
// a new file.
func replace(path, target, but string, mode fs.FileMode, fill func(io.Writer) error) error {
	if err := refused(path, but); err != nil {
		return err
	}
	dir, base := filepath.Dir(target), filepath.Base(target)
	Sweep(target)
	part, drop, err := beside(dir, base)
	if err != nil {
		return plain(path, err)
	}
	defer drop()
	if err := filled(part.file, part.name, mode, fill); err != nil {
		return plain(path, err)
	}
	return plain(path, inOneGo(func() error {
		if err := refused(path, but); err != nil { // a link may have been laid meanwhile
			return err
		}
		err := on.rename(part.name, target)
		_ = on.sync(dir)
		return err
	}))
}

// part is a file on its way.
type part struct {
	name string
	file file
}

// beside opens a new file in target's folder, held until drop.
func beside(dir, base string) (p part, drop func(), err error) {
	drop, err = began(func() (string, func(), error) {
		for range nameTries {
			p.name = filepath.Join(dir, PartName(base))
			if p.file, err = on.create(p.name); err != nil {
				if errors.Is(err, fs.ErrExist) {
					continue
				}
				return "", nil, err
			}
			h, held := hold.Existing(p.name)
			if held == nil {
				name := p.name
				return name, func() { _ = on.remove(name); h.Close() }, nil
			}
			_ = p.file.Close()
			_ = on.remove(p.name)
			err = held
		}
		return "", nil, err
	})
	return p, drop, err
}

// filled fills a file, which is then closed.
func filled(f file, name string, mode fs.FileMode, fill func(io.Writer) error) error {
	var err error
	if mode != 0 {
		err = on.chmod(name, mode) // first: what may not be read by all is not, half written neither
	}
	if err == nil {
		err = buffered(f, fill)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

func buffered(f io.Writer, fill func(io.Writer) error) error {
	b := bufio.NewWriterSize(f, bufferSize)
	if err := fill(b); err != nil {
		return err
	}
	return b.Flush()
}

// plain words an error of the system for someone who has not read its manual.
// Errors that are not the system's pass as they are.
func plain(path string, err error) error {
	if cause, ok := Cause(err); ok {
		return fmt.Errorf("cannot write %s: %w; nothing was changed", path, cause)
	}
	return err
}

// Cause is what the system says in an error of a file, without its name, and whether it
// is one of those; of any other, the error itself.
func Cause(err error) (cause error, system bool) {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err, true
	case errors.As(err, &link):
		return link.Err, true
	}
	return err, false
}

// unfinished holds what has been begun and is not yet in place, so that a program
// that is told to stop can tidy up. Whatever is begun, put in place or given up is
// so while it is locked: a signal finds it before or after, never amid it.
var unfinished = struct {
	sync.Mutex
	drop map[string]func()
}{drop: map[string]func(){}}

// began runs begin, which returns the path it has made and how to take it away
// again.
func began(begin func() (string, func(), error)) (func(), error) {
	unfinished.Lock()
	defer unfinished.Unlock()
	path, drop, err := begin()
	if err != nil {
		return func() {}, err
	}
	unfinished.drop[path] = drop
	return func() {
		unfinished.Lock()
		defer unfinished.Unlock()
		if drop, ok := unfinished.drop[path]; ok {
			delete(unfinished.drop, path)
			drop()
		}
	}, nil
}

// inOneGo runs what puts something in place.
func inOneGo(put func() error) error {
	unfinished.Lock()
	defer unfinished.Unlock()
	return put()
}

// Abandon removes whatever is half written, for a program that is about to exit.
// No write begins or ends after it: it never lets go.
func Abandon() {
	unfinished.Lock()
	for _, drop := range unfinished.drop {
		drop()
	}
}
