package bundle

// The times that files in a zip carry. Web servers, copiers and browsers go by them: a file of the same size and time
// counts as the same file, and one that is not newer is often left alone.

import (
	"crypto/sha256"
	"encoding/binary"
	"io"
	"strconv"
	"time"

	"trundle/generator/wording"
)

// Times gives the time that a file carries, in UTC.
type Times func(name string, file func() (io.ReadCloser, error)) (time.Time, error)

// epoch is the second day that a zip can hold, so that no time zone sees one that it cannot.
var epoch = time.Date(1980, time.January, 2, 0, 0, 0, 0, time.UTC)

// Holds is true if a zip can hold a time: from 1980, where the dates of MS-DOS begin, to
// 2037, beyond which the seconds of Unix leave the 32 bits that a zip has for them.
func Holds(at time.Time) bool {
	return at.UTC().Year() >= 1980 && at.UTC().Year() <= 2037
}

// Fixed is the same time for every file.
func Fixed(at time.Time) Times {
	return func(string, func() (io.ReadCloser, error)) (time.Time, error) { return at.UTC(), nil }
}

// Following gives times that need no clock: each version of a pack has a day of its own, a later version a later day;
// when on that day is a hash of the file. So a file that has changed has another time even if the version is the
// same, and a newer one if the version is a later one. All are in the past, from 1980 to 2024: a server must not
// say that a file comes from the future (RFC 9110, 8.8.2.1).
func Following(version string) Times {
	day := epoch.AddDate(0, 0, dayOf(version))
	const steps = 24 * 60 * 60 / 2 // MS-DOS, and so many a stick, counts in steps of two seconds
	return func(name string, file func() (io.ReadCloser, error)) (time.Time, error) {
		h := sha256.New()
		h.Write([]byte(name + "\x00"))
		if err := copyTo(h, file); err != nil {
			return time.Time{}, err
		}
		step := binary.BigEndian.Uint64(h.Sum(nil)) % steps
		return day.Add(time.Duration(step) * 2 * time.Second), nil
	}
}

var digits = wording.New(`[0-9]+`)

// dayOf puts versions in order by their first three numbers: 0 to 63, 0 to 15 and 0 to 15, larger ones as the largest.
// Of a year the last two figures count. Versions in words have the first day.
func dayOf(version string) int {
	day := 0
	numbers := digits.Compiled().FindAllString(version, 3)
	for i, most := range []int{63, 15, 15} {
		n := 0
		if i < len(numbers) {
			n, _ = strconv.Atoi(numbers[i]) // of more digits than fit, the largest there is
		}
		if i == 0 && n >= 2000 && n < 2100 {
			n -= 2000
		}
		day = day*(most+1) + min(n, most)
	}
	return day
}
