package atomicfile

import (
	"crypto/sha256"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"regexp"
	"strings"
	"sync"

	"seamrail/cmd/internal/hold"
)

// longestName is how long a name may be with what PartName adds to it; systems
// allow 255 bytes.
const longestName = 220

// tag is how a name is part of another's.
func tag(base string) string {
	switch {
	case len(base) > longestName:
		return fmt.Sprintf("%x", sha256.Sum256([]byte(base)))
	case base == string(filepath.Separator):
		return "root"
	}
	return base
}

// PartName is a name for what is on its way to base. Who makes one holds it until
// it is renamed or gone: what is not held is swept.
func PartName(base string) string { return fmt.Sprintf(".%s.%016x.part", tag(base), rand.Uint64()) }

// seenName is a name for a folder whose files are being put in place one by one.
func seenName() string { return fmt.Sprintf("unfinished-%016x.part", rand.Uint64()) }

var (
	afterTag = named(`^\.[0-9a-f]{16}\.part$`)
	seen     = named(`^unfinished-[0-9a-f]{16}\.part$`)
)

// named is a pattern of names, read when the first name is held against it.
func named(pattern string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(pattern) })
}

// isPart tells whether a name is one of PartName for base.
func isPart(name, base string) bool {
	rest, ok := strings.CutPrefix(name, "."+tag(base))
	return ok && afterTag().MatchString(rest)
}

// Sweep removes what runs that were killed have left of the file at path. What is
// held is that of a run that is alive, and what cannot be known to be dead stays.
func Sweep(path string) {
	dir, base := filepath.Dir(path), filepath.Base(path)
	entries, _ := on.list(dir)
	for _, e := range entries {
		if !e.Type().IsRegular() || !isPart(e.Name(), base) {
			continue
		}
		name := filepath.Join(dir, e.Name())
		h, err := hold.Existing(name)
		if err != nil {
			continue
		}
		if h.Sure {
			_ = on.remove(name)
		}
		h.Close()
	}
}
