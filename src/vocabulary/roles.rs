//! The roles of the layers of a build, from the top down.

/// What a layer of a build is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Slabs, flags, pavers or bricks.
    Paving,
    /// Gravel and the like, walked on.
    Surfacing,
    /// A coat on the back of the stone: thin-set or priming slurry.
    Bond,
    /// The setting bed.
    Bed,
    /// A coat on the slab or base.
    Slurry,
    /// A sheet that separates two layers.
    Membrane,
    /// A concrete slab.
    Slab,
    /// The compacted base.
    Base,
    /// What lies under the base.
    Subbase,
    /// Reinforcement.
    Mesh,
    /// A geotextile.
    Fabric,
}

impl Role {
    /// Every role, in the order in which they lie from the top down. Mesh may
    /// lie in a slab and a fabric between layers.
    pub const ALL: &'static [Role] = &[
        Role::Paving,
        Role::Surfacing,
        Role::Bond,
        Role::Bed,
        Role::Slurry,
        Role::Membrane,
        Role::Slab,
        Role::Base,
        Role::Subbase,
        Role::Mesh,
        Role::Fabric,
    ];

    /// The key of its entry in a `build`.
    pub const fn word(self) -> &'static str {
        match self {
            Role::Paving => "paving",
            Role::Surfacing => "surfacing",
            Role::Bond => "bond",
            Role::Bed => "bed",
            Role::Slurry => "slurry",
            Role::Membrane => "membrane",
            Role::Slab => "slab",
            Role::Base => "base",
            Role::Subbase => "subbase",
            Role::Mesh => "mesh",
            Role::Fabric => "fabric",
        }
    }

    /// The role with this word.
    pub fn from_word(word: &str) -> Option<Role> {
        Role::ALL
            .iter()
            .copied()
            .find(|role| role.word().eq_ignore_ascii_case(word))
    }

    /// Whether it is a sheet: laid by area, with no thickness.
    pub const fn is_sheet(self) -> bool {
        matches!(self, Role::Membrane | Role::Mesh | Role::Fabric)
    }
}
