package iso6336

import "fmt"

// Edition is an edition of ISO 6336 parts 1 to 3.
type Edition int

// The editions. The zero value is the later one.
const (
	Edition2019 Edition = iota
	Edition2006
)

func (e Edition) String() string {
	switch e {
	case Edition2019:
		return "ISO 6336:2019"
	case Edition2006:
		return "ISO 6336:2006"
	}
	return fmt.Sprintf("edition %d of ISO 6336", int(e))
}

func (e Edition) valid() error {
	if e != Edition2019 && e != Edition2006 {
		return fmt.Errorf("%v is not known here; choose Edition2019 or Edition2006", e)
	}
	return nil
}
