"""Site, stay and what the energy budget asks for besides, of random builds. All weather here is invented."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from .random_circuits import some

if TYPE_CHECKING:
    from random import Random

Document = dict[str, Any]


def add_site(random: Random, build: Document) -> None:
    """Stands a wired build somewhere, and fills in what the energy budget needs."""
    lamp = {"circuit": random.choice(list(build["electrical"]["circuits"])), "power_w": random.uniform(1, 60)}
    build["parts"]["lamp"] = {"mass_lb": 1, "x_in": 120, "y_in": 0, "z_in": 80, "electrical": lamp}
    chemistry = random.choice(("flooded", "agm", "gel", "lifepo4"))
    plain = {
        "chemistry": chemistry,
        "capacity_ah": random.uniform(50, 600),
        "nominal_v": random.uniform(11, 15),
    }
    battery = build.setdefault("battery", plain)
    battery |= _use(random)
    if random.random() < 0.4:
        battery["charging"] = {f"source_{i}": _charging(random) for i in range(random.randint(1, 3))}
    for array in build.get("solar", {}).get("arrays", {}).values():
        array |= _light(random)
        _fill_datasheet(array)
    build["site"] = _site(random)
    build["stay"] = _stay(random, list(build["electrical"].get("modes", {})))


def _use(random: Random) -> Document:
    """What only the energy budget reads of a battery."""
    use = some(
        random,
        {
            "rated_h": random.uniform(1, 100),
            "peukert_exponent": random.uniform(1, 1.4),
            "round_trip_efficiency": random.uniform(0.5, 1),
            "self_discharge_fraction": random.random(),
            "max_charge_a": random.uniform(5, 200),
            "absorption_h": random.uniform(0, 6),
            "thermal_h": random.uniform(0, 20),
            "heater_w": random.uniform(0, 80),
        },
    )
    if random.random() < 0.3:
        use |= {"cycles": random.uniform(50, 6000), "cycle_depth": random.uniform(0.1, 1)}
    return use


def _charging(random: Random) -> Document:
    source: Document = {"kind": random.choice(("shore", "generator")), "output_a": random.uniform(1, 60)}
    source |= some(
        random,
        {
            "input_w": random.uniform(100, 2000),
            "efficiency": random.uniform(0.5, 1),
            "on_fraction": [random.choice((0.0, random.random())) for _ in range(24)],
            "weekdays": ["sat", "sun"],
            "months": [1, 6, 7],
        },
    )
    return source


def _light(random: Random) -> Document:
    """What only the energy budget reads of an array."""
    return some(
        random,
        {
            "on_ground": random.random() < 0.5,
            "power_fraction_per_c": random.uniform(-0.005, 0),
            "soiling_fraction": random.random(),
            "loss_fraction": random.random(),
            "shade_by_hour": [random.choice((0.0, random.random())) for _ in range(24)],
            "shade_by_month": [random.random() for _ in range(12)],
            "sky_view": random.random(),
            "bypass_groups": random.randint(1, 6),
        },
    )


def _fill_datasheet(array: Document) -> None:
    """What a PWM controller's current cannot be worked out without."""
    voc_v = array.setdefault("voc_v", array.get("vmp_v", 18.0) / 0.8)
    isc_a = array.setdefault("isc_a", array.get("imp_a", 6.0) / 0.9)
    array.setdefault("vmp_v", 0.8 * voc_v)
    array.setdefault("imp_a", 0.9 * isc_a)


def _site(random: Random) -> Document:
    site: Document = {"latitude_deg": random.uniform(-90, 90), "longitude_deg": random.uniform(-180, 180)}
    site |= some(
        random,
        {
            "elevation_ft": random.uniform(-1000, 10000),
            "heading_deg": random.uniform(-360, 360),
            "albedo": random.random(),
            "seed": random.randrange(1000),
        },
    )
    # A year takes a while: most have a few days.
    site["weather"] = random.choice((_hourly, _hourly, _design_day, _design_day, _year))(random)
    if "place" in site["weather"]:
        return {"weather": site["weather"]}
    return site


def _hourly(random: Random) -> Document:
    step_min = random.choice((60, 30, 15))
    count = random.randint(1, 5 * 1440 // step_min)
    series: Document = {"start": "2024-02-28T10:00", "step_min": step_min}
    series["ghi_w_m2"] = [random.choice((0.0, random.uniform(0, 1000))) for _ in range(count)]
    series["dry_bulb_f"] = [random.uniform(-20, 110) for _ in range(count)]
    if random.random() < 0.5:
        series["dni_w_m2"] = [random.uniform(0, 900) for _ in range(count)]
        series["dhi_w_m2"] = [random.uniform(0, 400) for _ in range(count)]
    return {"hourly": series}


def _design_day(random: Random) -> Document:
    low_f = random.uniform(-20, 80)
    day = {"day_of_year": random.randint(1, 366), "min_f": low_f, "max_f": low_f + random.uniform(0, 40)}
    return {"design_day": day | some(random, {"linke_turbidity": random.uniform(1, 8)})}


def _year(random: Random) -> Document:
    monthly = {
        "ghi_kwh_m2_day": [random.uniform(1, 6) for _ in range(12)],
        "mean_f": [random.uniform(0, 90) for _ in range(12)],
    }
    clear = some(random, {"linke_turbidity": random.uniform(1, 8)})
    return random.choice(({"monthly": monthly}, {"clear_sky": clear}, {"place": "golden_co"}))


def _stay(random: Random, modes: list[str]) -> Document:
    stay = some(
        random,
        {
            "first_hour": random.randint(0, 23),
            "days": random.randint(1, 5),
            "grey_fraction": random.random(),
            "heated_to_f": random.uniform(30, 70),
            "max_unmet_fraction": random.random() / 10,
            "detail": random.choice(("months", "days", "steps")),
        },
    )
    if random.random() < 0.7:
        stay["first_day"] = random.choice(("10-24", "02-29", "01-01"))
    if modes and random.random() < 0.5:
        stay["mode"] = random.choice(modes)
    return stay
