import type { BufferGeometry, Object3D } from 'three';
import { Group, Material, Mesh } from 'three';
import { mergeGeometries } from 'three/addons/utils/BufferGeometryUtils.js';

/**
 * The same things with all solids of one material in one mesh: some sixty draw calls instead of two thousand.
 */
export const baked = (things: Object3D): Group => {
  things.updateMatrixWorld(true);
  const piles = new Map<string, { material: Material; casts: boolean; geometries: BufferGeometry[] }>();
  const result = new Group();
  things.traverse((thing) => {
    if (!(thing instanceof Mesh)) return;
    const mesh: Mesh = thing;
    const geometry = (
      mesh.geometry.index ? mesh.geometry.toNonIndexed() : mesh.geometry.clone()
    ).applyMatrix4(mesh.matrixWorld);
    const { material } = mesh;
    if (!(material instanceof Material)) {
      const own = new Mesh(geometry, material);
      own.castShadow = mesh.castShadow;
      own.receiveShadow = mesh.receiveShadow;
      result.add(own);
      return;
    }
    geometry.clearGroups();
    const key = `${material.uuid} ${mesh.castShadow}`;
    const pile = piles.get(key) ?? { material, casts: mesh.castShadow, geometries: [] };
    pile.geometries.push(geometry);
    piles.set(key, pile);
  });
  for (const { material, casts, geometries } of piles.values()) {
    const merged = new Mesh(mergeGeometries(geometries), material);
    merged.castShadow = casts;
    merged.receiveShadow = true;
    result.add(merged);
  }
  return result;
};
