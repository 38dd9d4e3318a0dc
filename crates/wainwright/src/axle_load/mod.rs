//! Axle load: what tongue, axles, wheels and tow vehicle carry, and where heavy things may stand.
