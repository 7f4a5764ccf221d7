// SPDX-License-Identifier: MIT
// Comes before every source of Box2D but b2_settings.cpp. Nothing here prints a world as source
// text. Of the joints, b2Joint::Create makes only the distance and the pulley joint (which its Draw
// names): the classes of the others stay declared, but the library makes a distance joint in their
// place. Take a line away to use such a joint; tests/rules sees to it.
#pragma once

#include "box2d/box2d.h"

#define b2Dump(...) ((void)0)

#ifdef LOOM_BOX2D_JOINT_FACTORY
#define b2FrictionJoint b2DistanceJoint
#define b2FrictionJointDef b2DistanceJointDef
#define b2GearJoint b2DistanceJoint
#define b2GearJointDef b2DistanceJointDef
#define b2MotorJoint b2DistanceJoint
#define b2MotorJointDef b2DistanceJointDef
#define b2MouseJoint b2DistanceJoint
#define b2MouseJointDef b2DistanceJointDef
#define b2PrismaticJoint b2DistanceJoint
#define b2PrismaticJointDef b2DistanceJointDef
#define b2RevoluteJoint b2DistanceJoint
#define b2RevoluteJointDef b2DistanceJointDef
#define b2WeldJoint b2DistanceJoint
#define b2WeldJointDef b2DistanceJointDef
#define b2WheelJoint b2DistanceJoint
#define b2WheelJointDef b2DistanceJointDef
#endif
