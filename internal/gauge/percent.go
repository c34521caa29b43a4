package gauge

// PercentGlass is the trade's percent hydrometer, marked for 60 F.
func PercentGlass() Instrument {
	return Instrument{Scale: PercentSalt, Calibration: DefaultCalibration}
}
