package cli

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"seamrail/export/header"
)

// part is one file of the folder and what it is for.
type part struct {
	name, purpose string
	fill          func(io.Writer) error
}

// contents are the files of the folder, and those that are left out.
type contents struct {
	parts []part
	left  []leftOut
}

// leftOut are files that are not written, and why.
type leftOut struct {
	names []string
	why   string
}

func with(parts ...part) contents { return contents{parts: parts} }

func without(why error, names ...string) contents {
	return contents{left: []leftOut{{names, why.Error()}}}
}

// together joins contents. What is left out for the same reason is told once.
func together(all ...contents) (out contents) {
	for _, c := range all {
		out.parts = append(out.parts, c.parts...)
		for _, l := range c.left {
			k := slices.IndexFunc(out.left, func(o leftOut) bool { return o.why == l.why })
			if k < 0 {
				out.left = append(out.left, l)
			} else {
				out.left[k].names = slices.Concat(out.left[k].names, l.names)
			}
		}
	}
	return out
}

// list writes what each file is for, and what is left out.
func (c contents) list(w io.Writer) error {
	var b strings.Builder
	for _, p := range c.parts {
		fmt.Fprintf(&b, "  %-12s %s\n", p.name, p.purpose)
	}
	for _, l := range c.left {
		fmt.Fprintf(&b, "Left out: %s.\n  %s\n", strings.Join(l.names, ", "), sentence(header.Clean(l.why)))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// stale says which of the files that are left out lie in the folder all the same.
func (c contents) stale(w io.Writer, dir string) error {
	var there []string
	for _, l := range c.left {
		for _, name := range l.names {
			if _, err := os.Lstat(filepath.Join(dir, name)); err == nil {
				there = append(there, name)
			}
		}
	}
	if len(there) == 0 {
		return nil
	}
	_, err := fmt.Fprintf(w, "Not of this plan, but in %s from before: %s.\n", dir, strings.Join(there, ", "))
	return err
}
