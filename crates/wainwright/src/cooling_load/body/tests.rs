use serde_json::{Value, json};

use super::*;
use crate::cooling_load::fixture::{assert_same, plain, read, with};
use crate::units::M2_K_W_PER_R;

const FILM_W_M2_K: f64 = 17.0;
/// Aluminum, an inch and a half of polyisocyanurate, an eighth of plywood.
const PANEL_M2_K_W: f64 = 0.000_762 / 160.0 + 0.0381 / 0.026 + 0.003_175 / 0.13;

fn panel() -> Value {
    json!([
        {"material": "aluminum", "thickness_in": 0.03},
        {"material": "polyiso", "thickness_in": 1.5},
        {"material": "plywood", "thickness_in": 0.125},
    ])
}

/// The plain box with a surface of layers in one place.
fn layered(id: &str, layers: Value) -> Value {
    let area_ft2 = plain()["envelope"]["surfaces"][id]["area_ft2"].clone();
    let surface = json!({"area_ft2": area_ft2, "facing": id, "layers": layers});
    with(plain(), &format!("/envelope/surfaces/{id}"), surface)
}

/// Does something with the surface of an id.
fn of_surface<T>(document: &Value, id: &str, season: Season, take: impl Fn(&Opaque) -> T) -> T {
    let build = read(document);
    let body = Body::of(&build, season).unwrap();
    take(body.opaque.iter().find(|one| one.id == id).unwrap())
}

/// Resistance from the air inside to the outer face [m²·K/W].
fn inner_m2_k_w(document: &Value, id: &str, season: Season) -> f64 {
    of_surface(document, id, season, |one| one.inner_m2_k_w)
}

fn body(document: &Value, check: impl Fn(&Body)) {
    let build = read(document);
    check(&Body::of(&build, Season::Summer).unwrap());
}

/// An R from air to air counts a film outside of 0.04 m²K/W; the film of the day takes its place.
#[test]
fn a_stated_resistance_counts_its_films() {
    let floor = inner_m2_k_w(&plain(), "floor", Season::Summer);
    assert_same(floor, 5.0 * M2_K_W_PER_R - 0.04);
    assert_eq!(inner_m2_k_w(&plain(), "floor", Season::Winter), floor);
    body(&plain(), |body| {
        let sums = body.sums(1.0 / 0.04);
        // 98 ft² of R 5: 19.6 BTU/(h·°F).
        assert_same(sums.opaque_w_k[Facing::Roof as usize], 19.6 * 0.293_071_070_172 * 1.8);
        let thinner = body.sums(FILM_W_M2_K).opaque_w_k[Facing::Roof as usize];
        assert_same(thinner, body.opaque[0].area_m2 / (5.0 * M2_K_W_PER_R - 0.04 + 1.0 / 17.0));
    });
}

#[test]
fn layers_add_up_and_the_film_inside_goes_by_the_season() {
    for (id, summer, winter) in [("roof", 0.17, 0.10), ("floor", 0.10, 0.17), ("left", 0.13, 0.13)] {
        let document = layered(id, panel());
        assert_same(inner_m2_k_w(&document, id, Season::Summer), PANEL_M2_K_W + summer);
        assert_same(inner_m2_k_w(&document, id, Season::Winter), PANEL_M2_K_W + winter);
    }
    let stated = layered("left", json!([{"r_value": 4, "thickness_in": 1}, {"r_value": 0}]));
    assert_same(inner_m2_k_w(&stated, "left", Season::Summer), 4.0 * M2_K_W_PER_R + 0.13);
    assert_eq!(of_surface(&stated, "left", Season::Summer, |one| one.coldest_share), None);
}

/// ISO 6946 by hand: a tenth of wood through an inch and a half of foam, between films of 0.13 and 0.04 m²K/W.
#[test]
fn wood_bridges_its_layer() {
    let (foam, wood) = (0.0381 / 0.026, 0.0381 / 0.13);
    let upper = 1.0 / (0.9 / (0.17 + foam) + 0.1 / (0.17 + wood));
    let lower = 0.17 + 1.0 / (0.9 / foam + 0.1 / wood);
    let framed = |wood_fraction: f64| {
        let layer = json!({"material": "polyiso", "thickness_in": 1.5, "wood_fraction": wood_fraction});
        inner_m2_k_w(&layered("left", json!([layer])), "left", Season::Winter)
    };
    assert_same(framed(0.1) + 0.04, (upper + lower) / 2.0);
    assert_same(framed(0.0), foam + 0.13);
    assert_same(framed(1.0), wood + 0.13);
}

/// Source: own two-dimensional solutions of framed walls (`framing_bridges.csv`): R 9.4 clear and 5.1 with steel posts every
/// 16 in, 9.6 with half an inch of foam run over them.
#[test]
fn posts_halve_a_wall_and_foam_over_them_gives_it_back() {
    let lining = json!({"material": "plywood", "thickness_in": 0.126});
    let foam = |inches: f64| json!({"material": "polyiso", "thickness_in": inches});
    let walled =
        |layers: Value, posts: Value| with(layered("left", layers), "/envelope/surfaces/left/posts", posts);
    let true_r = |document: &Value| (inner_m2_k_w(document, "left", Season::Winter) + 0.04) / M2_K_W_PER_R;
    let coldest =
        |document: &Value| of_surface(document, "left", Season::Winter, |one| one.coldest_share).unwrap();

    let posts = json!({"material": "steel", "depth_in": 1.5, "spacing_in": 16});
    let bare = walled(json!([foam(1.5), lining]), posts);
    assert_eq!(format!("{:.1} {:.2}", true_r(&bare), coldest(&bare)), "5.1 0.27");
    let covering = json!({"material": "steel", "depth_in": 1.5, "spacing_in": 16, "foam_in": 0.5});
    let covered = walled(json!([foam(1.5), foam(0.5), lining]), covering);
    assert_eq!(format!("{:.1} {:.2}", true_r(&covered), coldest(&covered)), "9.6 0.83");
    let clear = layered("left", json!([foam(1.5), lining]));
    assert_eq!(format!("{:.1}", true_r(&clear)), "9.4");
    // Posts in a wall without insulation are taken to stand in foam: some bridge they are.
    let hollow = walled(
        json!([{"r_value": 1}, lining]),
        json!({"material": "steel", "depth_in": 1.5, "spacing_in": 16}),
    );
    assert!(true_r(&hollow) < true_r(&layered("left", json!([{"r_value": 1}, lining]))));
}

#[test]
fn windows_are_cut_out_of_the_surface_around_them() {
    let windows = json!({
        "one": {"area_ft2": 4, "facing": "left", "u_value": 0.5, "shgc": 0.6},
        "two": {"area_ft2": 6, "facing": "left", "surface": "left", "u_value": 1.0, "shgc": 0.8, "cover": "curtain"},
        "all": {"area_ft2": 45.5, "facing": "rear"},
    });
    body(&with(plain(), "/envelope/windows", windows), |body| {
        let of = |id: &str| body.opaque.iter().find(|one| one.id == id).unwrap();
        assert_same(of("left").area_m2, 81.0 * 0.092_903_04);
        assert_eq!(of("rear").area_m2, 0.0);
        let sums = body.sums(FILM_W_M2_K);
        let ua = (4.0 * 0.5 + 6.0 * 1.0) * 0.527_527_926_31 + 45.5 * 0.092_903_04 * 5.8;
        assert_same(sums.windows_w_k, ua);
        let left = Facing::Left as usize;
        // U below 0.75 is taken for two panes; a curtain lets 0.65 past.
        assert_same(sums.double_m2[left], 4.0 * 0.092_903_04 * 0.6);
        assert_same(sums.single_m2[left], 6.0 * 0.092_903_04 * 0.8 * 0.65);
        assert_same(sums.single_m2[Facing::Rear as usize], 45.5 * 0.092_903_04 * 0.86);
        assert_eq!(sums.opaque_w_k[Facing::Rear as usize], 0.0);
        // Panes and what is around them are inner faces.
        assert_same(sums.inner_m2, 469.0 * 0.092_903_04);
    });
}

#[test]
fn glazing_that_is_not_stated_goes_by_what_it_lets_through() {
    assert_eq!(usual_glazing(None, None), Glazing::SingleGlass);
    assert_eq!(usual_glazing(None, Some(0.74)), Glazing::DoubleGlass);
    assert_eq!(usual_glazing(None, Some(0.75)), Glazing::SingleGlass);
    assert_eq!(usual_glazing(Some(Glazing::WhiteAcrylic), Some(0.3)), Glazing::WhiteAcrylic);
}

#[test]
fn a_look_or_figures_say_how_a_surface_takes_in_sun() {
    let look = |id: &str, members: &[(&str, Value)]| {
        let document = members.iter().fold(plain(), |document, (member, value)| {
            with(document, &format!("/envelope/surfaces/{id}/{member}"), value.clone())
        });
        of_surface(&document, id, Season::Summer, |one| (one.absorptance, one.emittance, one.lit))
    };
    assert_eq!(look("roof", &[]), (0.3, 0.9, 1.0));
    assert_eq!(look("floor", &[]), (0.6, 0.9, 1.0));
    assert_eq!(look("roof", &[("finish", json!("bare_aluminum"))]), (0.35, 0.07, 1.0));
    assert_eq!(
        look("roof", &[("solar_absorptance", json!(0.7)), ("emittance", json!(0.5))]),
        (0.7, 0.5, 1.0)
    );
    assert_eq!(look("roof", &[("shade_fraction", json!(0.25))]).2, 0.75);
    let shaded = with(plain(), "/envelope/shade_fraction", json!(0.5));
    let shaded = with(shaded, "/envelope/surfaces/roof/shade_fraction", json!(0.5));
    assert_eq!(of_surface(&shaded, "roof", Season::Summer, |one| one.lit), 0.25);
    assert_eq!(of_surface(&shaded, "floor", Season::Summer, |one| one.lit), 0.5);
}

/// 3.9 K of sol-air temperature at a film of 17 W/m²K are 66 W/m² that a painted roof sheds.
#[test]
fn a_roof_alone_sheds_heat_to_the_sky_by_what_it_sees_of_it() {
    let sheds =
        |document: &Value, id: &str| of_surface(document, id, Season::Summer, |one| one.sky_loss_w_m2());
    let open_w_m2 = sheds(&plain(), "roof");
    assert_eq!(format!("{:.1}", open_w_m2 / FILM_W_M2_K), "3.9");
    assert_eq!((sheds(&plain(), "left"), sheds(&plain(), "floor")), (0.0, 0.0));
    let bare = with(plain(), "/envelope/surfaces/roof/emittance", json!(0.09));
    assert_same(sheds(&bare, "roof"), open_w_m2 / 10.0);
    let shaded = with(plain(), "/envelope/shade_fraction", json!(0.8));
    assert_same(sheds(&shaded, "roof"), 0.2 * open_w_m2);
    body(&plain(), |body| {
        let sums = body.sums(FILM_W_M2_K);
        assert_same(sums.sky_w[0], sums.opaque_w_k[0] * open_w_m2 / FILM_W_M2_K);
        assert_same(sums.sun_m2[0], sums.opaque_w_k[0] * 0.3 / FILM_W_M2_K);
    });
}

#[test]
fn room_floor_and_what_takes_up_heat_have_their_defaults() {
    body(&plain(), |body| {
        assert_same(body.volume_m3, 637.0 * 0.028_316_846_592);
        assert_same(body.floor_m2, 98.0 * 0.092_903_04);
        assert_same(body.mass_j_k, 60_000.0 * body.floor_m2);
        assert_eq!(body.floor_load, None);
    });
    let heavy = with(plain(), "/envelope/heat_capacity_btu_f", json!(300));
    let heavy = with(heavy, "/envelope/volume_ft3", json!(600));
    let heavy = with(heavy, "/envelope/floor_load", json!({"mass_lb": 500, "area_ft2": 50}));
    body(&heavy, |body| {
        assert_same(body.volume_m3, 600.0 * 0.028_316_846_592);
        assert_same(body.mass_j_k, 300.0 * 1_055.055_852_62 * 1.8);
        let load = body.floor_load.unwrap();
        assert_same(load.heat_j_k, 500.0 * 0.2 * 1_055.055_852_62 * 1.8);
        assert_same(load.to_surface_w_k, 9.1 * 50.0 * 0.092_903_04);
    });
    let weightless = with(heavy, "/envelope/floor_load/mass_lb", json!(0));
    body(&weightless, |body| assert_eq!(body.floor_load, None));
    // A box without a floor stands on as much as its roof covers.
    let mut open = plain();
    open["envelope"]["surfaces"].as_object_mut().unwrap().remove("floor");
    body(&open, |body| assert_same(body.floor_m2, 98.0 * 0.092_903_04));
}

#[test]
fn without_surfaces_or_room_there_is_no_box() {
    let none = |document: Value| Body::of(&read(&document), Season::Summer).is_none();
    assert!(none(json!({})));
    assert!(none(json!({"envelope": {}})));
    let lid = json!({"envelope": {"surfaces": {"roof": {"area_ft2": 98, "facing": "roof", "r_value": 5}}}});
    assert!(none(lid.clone()));
    assert!(!none(with(lid, "/envelope/volume_ft3", json!(600))));
}

/// Three quarters of the faces are mass, at 9.1 W/m²K from the surfaces; all of them give 3.45 W/m²K to the air.
#[test]
fn the_network_lets_through_what_the_surfaces_do() {
    body(&plain(), |body| {
        let sums = body.sums(FILM_W_M2_K);
        let BoxNetwork { network, to_mass, to_surface } = body.network(&sums, 1.2);
        assert_same(network.surface_to_air_w_k, 3.45 * sums.inner_m2);
        assert_same(network.mass_to_surface_w_k, 9.1 * 0.75 * sums.inner_m2);
        let series = 1.0 / (1.0 / network.outside_to_mass_w_k + 1.0 / network.mass_to_surface_w_k);
        assert_same(series, sums.opaque_w_k.iter().sum());
        assert_same(network.air_j_k, 3.0 * body.volume_m3 * 1.2 * 1006.0);
        assert_same(to_mass, 0.75);
        assert_same(to_surface, 0.25);
        assert_eq!(network.windows_w_k, 0.0);
    });
    let glazed = with(plain(), "/envelope/windows", json!({"one": {"area_ft2": 40, "facing": "left"}}));
    body(&glazed, |body| {
        let sums = body.sums(FILM_W_M2_K);
        let BoxNetwork { to_mass, to_surface, .. } = body.network(&sums, 1.2);
        assert_same(to_mass + to_surface + sums.windows_w_k / (9.1 * sums.inner_m2), 1.0);
    });
}

/// Bare metal lets through nearly as much as three quarters of the faces could pass on: more of them are counted as mass.
#[test]
fn of_bare_metal_more_of_the_faces_counts_as_mass() {
    let bare =
        ["roof", "floor", "front", "rear", "left", "right"].into_iter().fold(plain(), |document, id| {
            with(document, &format!("/envelope/surfaces/{id}/r_value"), json!(0.5))
        });
    body(&bare, |body| {
        let sums = body.sums(FILM_W_M2_K);
        let BoxNetwork { network, to_mass, to_surface } = body.network(&sums, 1.2);
        let opaque_w_k: f64 = sums.opaque_w_k.iter().sum();
        assert_same(network.mass_to_surface_w_k, 1.25 * opaque_w_k);
        assert!(network.mass_to_surface_w_k > 9.1 * 0.75 * sums.inner_m2);
        let series = 1.0 / (1.0 / network.outside_to_mass_w_k + 1.0 / network.mass_to_surface_w_k);
        assert_same(series, opaque_w_k);
        assert!((0.0..=1.0).contains(&to_mass) && to_surface >= 0.0 && to_mass + to_surface <= 1.0);
    });
}

#[test]
fn heat_goes_down_through_a_roof_by_day_and_up_by_night() {
    use HeatFlow::{Down, Horizontal, Up};
    for (facing, summer, winter) in [
        (Facing::Roof, Down, Up),
        (Facing::Floor, Up, Down),
        (Facing::Front, Horizontal, Horizontal),
        (Facing::Rear, Horizontal, Horizontal),
        (Facing::Left, Horizontal, Horizontal),
        (Facing::Right, Horizontal, Horizontal),
    ] {
        assert_eq!((flow(facing, Season::Summer), flow(facing, Season::Winter)), (summer, winter));
    }
}
