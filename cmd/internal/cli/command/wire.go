package command

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/exit"
	"seamrail/export/drive/wirelog"
	"seamrail/export/report"
)

// KeepWire is the file that all that goes over a wire is to be kept in: a new one, in a
// folder that is there. It says where and what that gives away, before anything is sent.
func KeepWire(s Streams, to io.Writer, name string) (save func(write func(io.Writer) error) error, err error) {
	if _, err := os.Lstat(name); err == nil {
		return nil, exit.Misused("%s is there, and a record is not written over; name another file for --keep-wire", name)
	}
	if dir, err := os.Stat(filepath.Dir(name)); err != nil || !dir.IsDir() {
		return nil, exit.Misused("there is no folder %s for the record; make it, or name a file elsewhere for --keep-wire", filepath.Dir(name))
	}
	said := report.Fold("All that goes over the wire is kept in "+name+". "+wirelog.Gives, s.Columns(report.Width))
	_, err = fmt.Fprintln(to, strings.Join(said, "\n"))
	return func(write func(io.Writer) error) error { return atomicfile.Write(name, write) }, err
}
