package job

import "gapwright/geometry"

func (r Record) stripReady() (bool, error) { return false, geometry.ErrNoReading }

func (r Record) stripLowered(course int) (geometry.Interval, bool) { return geometry.Interval{}, false }
