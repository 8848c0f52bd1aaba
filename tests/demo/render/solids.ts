import type { Material, Object3D } from 'three';
import {
  BoxGeometry,
  CatmullRomCurve3,
  CylinderGeometry,
  Mesh,
  Quaternion,
  SphereGeometry,
  TorusGeometry,
  TubeGeometry,
  Vector3,
} from 'three';
import type { Vector } from '../world/vector';

const shaded = (mesh: Mesh): Mesh => {
  mesh.castShadow = true;
  mesh.receiveShadow = true;
  return mesh;
};

export const place = <Thing extends Object3D>(thing: Thing, at: Vector): Thing => {
  thing.position.set(...at);
  return thing;
};

/** Every solid here casts and takes shadows. */
export const solid = (mesh: Mesh): Mesh => shaded(mesh);

/** A block by its sizes along x, y and z, centered at a point. */
export const block = (sizes: Vector, material: Material, at: Vector): Mesh =>
  place(shaded(new Mesh(new BoxGeometry(...sizes), material)), at);

/** A round bar from one point to another. */
export const bar = (from: Vector, to: Vector, radius: number, material: Material, sides = 20): Mesh => {
  const [a, b] = [new Vector3(...from), new Vector3(...to)];
  const mesh = shaded(new Mesh(new CylinderGeometry(radius, radius, a.distanceTo(b), sides), material));
  mesh.position.copy(a).lerp(b, 0.5);
  mesh.quaternion.copy(
    new Quaternion().setFromUnitVectors(new Vector3(0, 1, 0), b.clone().sub(a).normalize()),
  );
  return mesh;
};

/** A bent tube through points. */
export const tube = (points: readonly Vector[], radius: number, material: Material, bend = 0.15): Mesh =>
  shaded(
    new Mesh(
      new TubeGeometry(
        new CatmullRomCurve3(
          points.map((point) => new Vector3(...point)),
          false,
          'catmullrom',
          bend,
        ),
        points.length * 14,
        radius,
        12,
      ),
      material,
    ),
  );

/** A ring whose plane is the side plane (its axis along y). */
export const ring = (at: Vector, radius: number, thickness: number, material: Material): Mesh => {
  const mesh = place(shaded(new Mesh(new TorusGeometry(radius, thickness, 14, 36), material)), at);
  mesh.rotation.x = Math.PI / 2;
  return mesh;
};

export const ball = (at: Vector, radius: number, material: Material): Mesh =>
  place(shaded(new Mesh(new SphereGeometry(radius, 20, 14), material)), at);
